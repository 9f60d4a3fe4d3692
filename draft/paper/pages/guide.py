"""The first printed page: how to print, squares to measure, the key of lines and signs, and a map of the pages.

Two columns side by side; on narrow paper one below the other, on as many pages as that takes. Where the first page is
full, the pieces and the choices go on a second, the key does not.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from itertools import count
from math import inf
from typing import TypeAlias

from draft.base.record import dataclass
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.flow import Flow, Frame, column_frames
from draft.paper.pages import key
from draft.paper.pages.guide_parts import (
    HEADING,
    MAP_LEAST,
    Guide,
    beside_map,
    choices,
    head,
    put_by_size,
    put_map,
    put_pieces,
    put_signs,
    put_squares,
    put_steps,
    put_version,
    signs_within,
)
from draft.paper.pages.page_map import map_height

_GUTTER = 12.0
_MAP_FAIR = 72.0
"""The map is so high, mm, before other things take the room in its column."""
_MANY = 12
"""Of more pieces than these no list in a row each goes on over the page."""
_SQUARES = key.METRIC + key.SECOND


@dataclass(frozen=True)
class _Manner:
    """How the guide is laid out: pieces that are cut alike `together`, the least map, the choices as one paragraph."""

    together: bool
    map_least: float
    run_on: bool


_MANNERS = (_Manner(False, _MAP_FAIR, False), _Manner(False, MAP_LEAST, True), _Manner(True, MAP_LEAST, True))
"""The first that needs the fewest pages is taken."""
_Part: TypeAlias = Callable[[Flow], object]


def guide(about: Guide) -> list[tuple[Item, ...]]:
    """The items of each page of the guide, in mm on the page: on one, if what little would run over has room there."""
    pages: dict[int, list[Item]] = {}
    for manner in _MANNERS[len(about.drawing.footprints) > _MANY :]:
        tried = _laid(about, manner) if len(pages) != 1 else pages
        pages = tried if not pages or len(tried) < len(pages) else pages
    return [tuple(pages[number]) for number in sorted(pages)]


def _laid(about: Guide, manner: _Manner) -> dict[int, list[Item]]:
    """The items by page."""
    paper = about.grid.paper
    left, wide, bottom = paper.margin, paper.live[0], paper.height - paper.margin
    titles, top = head(about, left, paper.margin, wide)
    pages: dict[int, list[Item]] = {0: titles}
    if wide < _SQUARES + 2 * _GUTTER + 80.0:
        _one_column(Flow(column_frames(left, wide, top, paper.margin, bottom), pages), about, manner)
        return pages
    right = left + wide - _SQUARES
    beside = Flow(column_frames(right, _SQUARES, top, paper.margin, bottom), pages)
    main = Flow(column_frames(left, wide - _SQUARES - _GUTTER, top, paper.margin, bottom), pages)
    _two_columns(main, beside, about, manner)
    return pages


def _one_column(flow: Flow, about: Guide, manner: _Manner) -> None:
    for part in (put_squares, put_steps, put_signs, put_by_size):
        part(flow, about)
    put_pieces(flow, about, manner.together)
    if not put_map(flow, about, manner.run_on):
        put_version(flow, about, manner.run_on)


def _two_columns(main: Flow, beside: Flow, about: Guide, manner: _Manner) -> None:
    """Steps and the map at the left, squares and the key at the right, the rest where the page has room for it."""
    put_squares(beside, about)
    put_steps(main, about)
    _signs(main, beside, about)
    least = (map_height(flow.width, about.grid, MAP_LEAST) + HEADING for flow in (main, beside))
    mapped = next((flow for flow, high in zip((main, beside), least, strict=True) if flow.room >= high), None)
    kept = map_height(main.width, about.grid, manner.map_least) + HEADING
    columns = [(flow, kept if flow is mapped else 0.0) for flow in (beside, main)]
    parts: list[_Part] = [partial(put_by_size, about=about), partial(put_pieces, about=about, together=manner.together)]
    later = [part for part in parts if not _placed(part, *columns)]
    said = mapped and beside_map(mapped, about, manner.run_on, HEADING)[1]
    version = partial(put_version, about=about, run_on=manner.run_on)
    if choices(about) and not said and not _placed(version, *columns):
        later.append(version)
    if mapped:
        put_map(mapped, about, manner.run_on)
    else:
        later.insert(0, partial(put_map, about=about))
    _put_over(later, main, beside, about.grid.paper.margin)


def _put_over(parts: Sequence[_Part], main: Flow, beside: Flow, top: float) -> None:
    """What the first page has no room for in two equal columns on the pages behind it."""
    left, right = main.frame.x, beside.frame.x + beside.width
    width, first = (right - left - _GUTTER) / 2, max(main.frame.page, beside.frame.page) + 1
    frames = (Frame(page, x, top, width, main.frame.bottom) for page in count(first) for x in (left, right - width))
    over = Flow(frames, main.pages) if parts else main
    for part in parts:
        part(over)


def _signs(main: Flow, beside: Flow, about: Guide) -> None:
    """The key in one column, or what the one has no room for in the other."""
    if not _placed(partial(put_signs, about=about), (beside, 0.0), (main, 0.0)):
        first = signs_within(beside, about)
        put_signs(beside, about, slice(first))
        put_signs(main, about, slice(first, None))


def _placed(part: _Part, *columns: tuple[Flow, float]) -> bool:
    """Whether a part came to stand in the first column that has room for it, and so many mm to spare."""
    for flow, kept in columns:
        alone = Flow([Frame(0, 0.0, 0.0, flow.width, inf)], {})
        alone.put([], 1.0)  # so that it begins as below something else
        part(alone)
        if flow.room >= alone.y + kept:
            part(flow)
            return True
    return False
