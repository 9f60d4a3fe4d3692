"""One piece on paper: its lines for one size or several, notches, arrows, fold, take-ups, marks, title block and tags.

Given: a piece of a `Garment`, its bodies, and the `Surface` that it is drawn on: which way is up, and which page edges
words keep off. Gives: a `PieceDrawing`: items in layers, and the footprint that the piece takes. It must not know where
on a sheet it comes to lie, nor what lies beside it.
"""
