"""How much is drawn or laid at once: a nest of a hundred sizes tells nobody anything and takes an hour.

Nor is a line drawn that runs for miles: a designer looks at what came of a body that failed, and that may be anything.
"""

from __future__ import annotations

from draft.base.notes import Problems, error, stop_if_errors
from draft.checks import extent
from draft.garment.garment import Garment

MOST_SIZES = 60
"""Sizes that are drawn, packed or laid at once; shops have twenty."""
MOST_DRAWN = 1_500
"""Pieces of all sizes together: a lined coat of forty pieces in as many sizes."""


NO_PIECES = "draw one under `piece`, or trace one from a block; `draft --working` draws blocks as they are"


def stop_if_not_drawable(garment: Garment) -> None:
    """Raises Problems for a garment of no pieces, endless ones, or more sizes or pieces than are drawn at once."""
    if not garment.pieces:
        raise Problems([error("the pattern has no pieces, so there is nothing to draw or to lay", None, NO_PIECES)])
    sizes = len(garment.sizes)
    if sizes > MOST_SIZES:
        fact = f"{sizes:,} sizes are more than are drawn at once, which is {MOST_SIZES}"
    elif sizes * len(garment.pieces) > MOST_DRAWN:
        fact = (
            f"{len(garment.pieces)} pieces in {sizes} sizes are {sizes * len(garment.pieces):,} outlines, "
            f"and no more than {MOST_DRAWN:,} are drawn at once"
        )
    else:
        stop_if_errors(extent.too_long(garment))
        return
    raise Problems([error(fact, None, "choose some sizes, as in `--sizes S,M,L`")])
