"""What an editor asks about a piece file: what is wrong, what a name means, where it is used, what may stand here.

Only `server` knows the protocol; the other modules take texts and places, and can be asked by any other front.
"""
