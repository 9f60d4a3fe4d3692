"""The names of sizes in a nest: of letters, marks and lines, in the order in which they find room."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import chain
from typing import Any

from draft.paper.drawing.drawing import Item, Label
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece import edge_words, mark_tags, tags
from draft.paper.piece.across_lines import BETWEEN
from draft.paper.piece.bundle_names import bundle_names
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.covered import shapes_of
from draft.paper.piece.inked_piece import WORDS_IN, Inked
from draft.paper.piece.names_gathered import Grounds
from draft.paper.piece.opened import with_other_half
from draft.paper.piece.sized_marks import families
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.surface import Surface
from draft.paper.piece.tag_places import Tagged
from draft.paper.piece.tags_on_lines import with_names_on_lines

_OFF_PAGE_EDGE = 2.0
"""Names keep so many mm from the edge of a page."""
_OFF_LIST = 3.0
"""Names keep so many mm off the figures of all sizes, which have names in them too."""
_BESIDE, _OFF_PIECE = 30.0, 1.5
"""On paper beside a projected piece names stand so many mm off it at most, and at least, before all is enlarged."""


def sized_with_names(
    inked: Inked, shared: Sequence[Item], seams: edge_words.SeamWords, wording: Wording, surface: Surface
) -> tuple[tuple[Item, ...], ...]:
    """What is drawn of each size, with the names that it bears clear of what all share."""
    import shapely

    edges = [surface.edges] if surface.edges is not None else []
    lists = [label_spot(item).shape(_OFF_LIST) for item in shared if isinstance(item, Label) and BETWEEN in item.text]
    fold = inked.outlines[0].fold if surface.opened else None
    lines = (*inked.line_shapes, *(inked.turned_over(fold) if fold else ()))
    clutter = Clutter([*lines, *shapes_of(shared), *lists, *edges])
    sizes = []
    for index, one in enumerate(inked.outlines):
        shape = one.sewing_shape if inked.lines == "sewing" else one.cutting_shape
        shapely.prepare(shape)
        sizes.append(Tagged(one.size, index, inked.tagged_rulers[index], shape, inked.other_lines[index]))
    shapes = [with_other_half(one.cutting_shape, fold) if fold else one.cutting_shape for one in inked.outlines]
    grounds = Grounds(partial(_grounds, inked, shared, surface))
    named = Sizes([one.size for one in inked.outlines], shapes, surface, grounds)
    again = edge_words.letters_again(inked.outlines, seams, clutter, surface)
    marked = mark_tags.mark_tags(families(inked.together, wording, inked.crossed), named, clutter)
    labels, missed = tags.tags_of(sizes, clutter, surface)
    if surface.level:
        found: Sequence[Sequence[Item]] = with_names_on_lines(sizes, labels, clutter, surface)
    else:
        bundled = bundle_names(missed, sizes, named, clutter)
        found = [(*own, *names) for own, names in zip(labels, bundled, strict=True)]
    return tuple(tuple(chain(*parts)) for parts in zip(inked.sized, again, marked, found, strict=True))


def _grounds(inked: Inked, shared: Sequence[Item], surface: Surface) -> list[Any]:
    """Where names of marks may be gathered: on the piece, or where it is projected on the paper beside it too."""
    import shapely

    fold = inked.outlines[0].fold if surface.opened else None
    found = [surface.off(inked.whole_room(fold).shape if fold else inked.room.shape, _OFF_PAGE_EDGE)]
    if surface.level:
        shape = inked.outlines[0].together.cut_of_any
        shape = with_other_half(shape, fold) if fold else shape
        left, top, right, low = shape.bounds
        reach, off = _BESIDE * surface.enlarged, _OFF_PIECE * surface.enlarged
        paper = shapely.box(left - reach, top - reach, right + reach, low + reach)
        found.append(paper.difference(shape.buffer(off, quad_segs=1)))
    words = shapely.union_all(shapes_of(shared))
    return [one.difference(words.buffer(WORDS_IN, quad_segs=1)) for one in found]
