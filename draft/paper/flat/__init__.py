"""The finished garment drawn flat, front and back, from the drafted lines and the declared joins.

Given: a `Garment` and a body. Gives: a `Drawing` of two views. A panel is half of what is worn; what hangs on them and
what finishes an opening is set where the joins say (`limbs.py`, `bands.py`). It must not know what kind of garment it
is: of names it heeds `front` and `back`, and no other.
"""

from draft.paper.flat.side_by_side import flat_drawing

__all__ = ["flat_drawing"]
