"""The first printed page: how to print, squares to measure, the key of lines and signs, and a map of the pages.

Two columns side by side; on narrow paper one below the other, on as many pages as that takes. Where the first page is
full, the pieces and the choices go on a second, the key does not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from itertools import count

from draft.base.record import dataclass
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.flow import Flow, Frame, column_frames
from draft.paper.pages import key
from draft.paper.pages.guide_map import Part, placed, put_map
from draft.paper.pages.guide_parts import (
    HEADING,
    MAP_LEAST,
    RUNNING,
    Guide,
    head,
    put_by_size,
    put_pieces,
    put_signs,
    put_squares,
    put_steps,
    put_version,
    running_head,
    signs_within,
)
from draft.paper.pages.page_map import map_height

_GUTTER = 12.0
_MAP_FAIR = 72.0
"""The map is so high, mm, before other things take the room in its column."""
_MAP_LARGE = 200.0
"""On a page that it has for itself and what is cut, the map is so high at most."""
_FLAT = 90.0
"""A map that would be lower than this, mm, takes the whole width of its page."""
_MANY = 12
"""Of more pieces than these no list in a row each goes on over the page."""
_SQUARES = key.METRIC + key.SECOND


@dataclass(frozen=True)
class _Manner:
    """How the guide is laid out: pieces that are cut alike `together`, the least map, the choices as one paragraph.

    What is read once, at the printer, may be set in `fine` letters. Where all that is too much for one page still, the
    map stands on the `second` one, large.
    """

    together: bool
    map_least: float
    run_on: bool
    fine: bool = False
    second: bool = False


_MANNERS = (
    _Manner(False, _MAP_FAIR, False),
    _Manner(False, MAP_LEAST, True),
    _Manner(True, MAP_LEAST, True),
    _Manner(False, MAP_LEAST, True, fine=True),
    _Manner(True, MAP_LEAST, True, fine=True),
)
"""The first that needs one page is taken."""
_SPREAD = _Manner(False, _MAP_FAIR, False, second=True)
"""Else two full pages."""


def guide(about: Guide) -> list[tuple[Item, ...]]:
    """The items of each page of the guide, in mm on the page: on one, if what little would run over has room there."""
    many = len(about.drawing.footprints) > _MANY
    tried = (_laid(about, manner) for manner in _MANNERS if manner.together or not many)
    pages = next((one for one in tried if len(one) == 1), None) or _laid(about, replace(_SPREAD, together=many))
    return [(*(running_head(about) if number else ()), *pages[number]) for number in sorted(pages)]


def _laid(about: Guide, manner: _Manner) -> dict[int, list[Item]]:
    """The items by page."""
    paper = about.grid.paper
    left, wide, bottom = paper.margin, paper.live[0], paper.height - paper.margin
    titles, top = head(about, left, paper.margin, wide)
    pages: dict[int, list[Item]] = {0: titles}
    if wide < _SQUARES + 2 * _GUTTER + 80.0:
        _one_column(Flow(column_frames(left, wide, top, paper.margin + RUNNING, bottom), pages), about, manner)
        return pages
    right = left + wide - _SQUARES
    beside = Flow(column_frames(right, _SQUARES, top, paper.margin + RUNNING, bottom), pages)
    main = Flow(column_frames(left, wide - _SQUARES - _GUTTER, top, paper.margin + RUNNING, bottom), pages)
    put_squares(beside, about)
    put_steps(main, about, manner.fine)
    _signs(main, beside, about)
    (_on_two_pages if manner.second else _on_one_page)(main, beside, about, manner)
    return pages


def _one_column(flow: Flow, about: Guide, manner: _Manner) -> None:
    put_squares(flow, about)
    put_steps(flow, about, manner.fine)
    for part in (put_signs, put_by_size):
        part(flow, about)
    put_pieces(flow, about, manner.together, manner.fine)
    for left in put_map(flow, about, [partial(put_version, about=about, run_on=manner.run_on)]):
        left(flow)


def _on_one_page(main: Flow, beside: Flow, about: Guide, manner: _Manner) -> None:
    """Steps and the map at the left, squares and the key at the right, the rest where the page has room for it."""
    least = (map_height(flow.width, about.grid, MAP_LEAST) + HEADING for flow in (main, beside))
    mapped = next((flow for flow, high in zip((main, beside), least, strict=True) if flow.room >= high), None)
    kept = map_height(main.width, about.grid, manner.map_least) + HEADING
    columns = [(flow, kept if flow is mapped else 0.0) for flow in (beside, main)]
    pieces = partial(put_pieces, about=about, together=manner.together, fine=manner.fine)
    parts: list[Part] = [partial(put_by_size, about=about), pieces]
    version = partial(put_version, about=about, run_on=manner.run_on)
    later: list[Part] = [part for part in parts if not placed(part, *columns)]
    later.append(version)
    if mapped:
        later = put_map(mapped, about, later)
    else:
        later.insert(0, partial(put_map, about=about))
    _put_over([part for part in later if not placed(part, (beside, 0.0), (main, 0.0))], main, beside, about)


def _on_two_pages(main: Flow, beside: Flow, about: Guide, manner: _Manner) -> None:
    """Steps, squares, the key and the choices on the first, on the second the map, large, and what is cut."""
    version = partial(put_version, about=about, run_on=manner.run_on)
    later: list[Part] = [] if placed(version, (main, 0.0), (beside, 0.0)) else [version]
    later = [partial(put_by_size, about=about), partial(put_pieces, about=about, together=manner.together), *later]
    if map_height(main.width, about.grid, _MAP_LARGE) < _FLAT:
        _across(later, main, beside, about)
        return
    while main.frame.page < 1:
        main.next_frame()
    while beside.frame.page < main.frame.page:
        beside.next_frame()
    later = [part for part in later if not placed(part, (beside, 0.0))]
    left = put_map(main, about, later, _MAP_LARGE)
    _put_over([part for part in left if not placed(part, (main, 0.0))], main, beside, about)


def _across(later: Sequence[Part], main: Flow, beside: Flow, about: Guide) -> None:
    """A map that is low and wide across the whole second page, and the rest in two columns below it."""
    left, right, top = main.frame.x, beside.frame.x + beside.width, about.grid.paper.margin + RUNNING
    page = max(main.frame.page, beside.frame.page) + 1
    full = Flow([Frame(page, left, top, right - left, main.frame.bottom)], main.pages)
    put_map(full, about, (), _MAP_LARGE)
    frames = [
        Frame(page, x, full.y + _GUTTER, flow.width, main.frame.bottom)
        for x, flow in ((left, main), (beside.frame.x, beside))
    ]
    columns = [(Flow([frame], main.pages), 0.0) for frame in frames]
    _put_over([part for part in later if not placed(part, *columns)], main, beside, about, page + 1)


def _put_over(parts: Sequence[Part], main: Flow, beside: Flow, about: Guide, first: int = 0) -> None:
    """What the page has no room for in two equal columns on the pages behind it."""
    left, right, top = main.frame.x, beside.frame.x + beside.width, about.grid.paper.margin + RUNNING
    width, first = (right - left - _GUTTER) / 2, first or max(main.frame.page, beside.frame.page) + 1
    frames = (Frame(page, x, top, width, main.frame.bottom) for page in count(first) for x in (left, right - width))
    over = Flow(frames, main.pages) if parts else main
    for part in parts:
        part(over)


def _signs(main: Flow, beside: Flow, about: Guide) -> None:
    """The key in one column, or what the one has no room for in the other."""
    if not placed(partial(put_signs, about=about), (beside, 0.0), (main, 0.0)):
        first = signs_within(beside, about)
        put_signs(beside, about, slice(first))
        put_signs(main, about, slice(first, None))
