"""Sheets and rolls for a print shop, and one page for a projector.

Given: a `PatternDrawing`, and how large the paper is. Gives: a `PagedSheet` of whole pieces, or a `Drawing` whose
layers are sizes, with squares to measure or to set the scale by. It must not know match marks or the guide: every piece
is whole here.
"""
