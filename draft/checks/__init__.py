"""What is looked at before anyone cuts: one check a file, each a pure function from a garment to notes.

Given: a `Garment` of all its bodies, drafted and trued. Gives: notes that say what is wrong where, by how much, for
which bodies, and what would help; nothing is changed. One check looks at one thing. It must not know the text, how an
edge came about, or what is drawn of it.
"""

from __future__ import annotations

from collections.abc import Callable

from draft.base.notes import Note
from draft.checks import (
    alike,
    dart_legs,
    darts_inside,
    dips,
    elastic_holds,
    even_bends,
    extent,
    fair_curves,
    hem_curves,
    left_open,
    loose_edges,
    nesting,
    notches_meet,
    outlines,
    peaks,
    rising,
    seam_allowances,
    seam_ends,
    seam_lengths,
    seam_notches,
    seam_order,
    square_folds,
    takeups_across,
    wearing,
)
from draft.garment.garment import Garment

Check = Callable[[Garment], list[Note]]

SEAM_CHECKS: tuple[Check, ...] = (
    seam_order.check,
    seam_lengths.check,
    left_open.check,
    seam_ends.check,
    seam_allowances.check,
    seam_notches.check,
    notches_meet.check,
    peaks.check,
    square_folds.check,
)
FIRST_CHECKS: tuple[Check, ...] = (extent.check,)
"""Checks of all that is drafted, before anything else is done with it: what they find is never drawn."""
LINE_CHECKS: tuple[Check, ...] = (
    outlines.check,
    dart_legs.check,
    darts_inside.check,
    takeups_across.check,
    fair_curves.check,
    even_bends.check,
    dips.check,
    hem_curves.check,
)
CHECKS: tuple[Check, ...] = (*SEAM_CHECKS, *LINE_CHECKS, wearing.check, elastic_holds.check)
CHART_CHECKS: tuple[Check, ...] = (nesting.check, alike.check, rising.check)
"""Checks between the sizes of a chart; people of a study need not grow from one to the next."""
WHOLE_CHECKS: tuple[Check, ...] = (loose_edges.check,)
"""Checks of a pattern that is ready to be sewn; one that is still being drafted need not have all its seams."""


def run(garment: Garment, checks: tuple[Check, ...] = CHECKS) -> list[Note]:
    """The notes of all checks, in the order of the checks."""
    return [note for check in checks for note in check(garment)]
