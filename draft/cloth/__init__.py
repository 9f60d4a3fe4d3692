"""How much cloth a garment needs, and how its pieces are laid on it to be cut.

Given: the cut pieces of a size, a `Cloth`, and how long to search. Gives: a `Lay` of every folding (`lays.py`), looked
over by a check that knows nothing of the search (`verify.py`), the length to buy, and whether the pieces fit on what is
there. How long a search may take is counted in steps, so that the same question has the same lay. It must not know
paper, printed words, or what a piece is for.
"""
