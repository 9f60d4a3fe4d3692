"""What an editor asks about a piece file: what is wrong, what a name means, where it is used, what may stand here.

Given: a text, also one that cannot be read, and a place in it. Gives: notes, symbols, completions, texts to show, and
the places that a rename changes. Only `server.py` and the files that
teach it (`keeping_up.py`, `questions.py`, `alterations.py`) know the protocol; the others take texts and places, and
can be asked by any other front. It must not know paper or lays.
"""
