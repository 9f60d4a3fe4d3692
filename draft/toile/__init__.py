"""The toile: a garment's pieces sewn into one cloth by its joins, and that cloth settled on a form of a body.

Given: a drafted `Garment`, a form as a signed distance, and what a hand test says of the cloth. Gives: a `Sewn` mesh,
and the `Dressed` toile in states that each are a least energy of their own question, or a `Refused` with the reason.
It must not know how anything is drawn, or which words a sewist is told.

Millimetres and newtons: x to the wearer's left, y to her back, z up from the nape.
"""

from draft.toile.dressed import Dressed, FormField, Refused, Settled, State
from draft.toile.sewn import Sewn
from draft.toile.why_not import CannotDress, Why

__all__ = ["CannotDress", "Dressed", "FormField", "Refused", "Settled", "Sewn", "State", "Why"]
