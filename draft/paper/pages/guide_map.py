"""The map of the pages in the guide, and beside it what words have room there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import inf
from typing import TypeAlias

from draft.paper.drawing.flow import Flow, Frame
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.pages.guide_parts import INDENT, MAP_LEAST, Guide, heading
from draft.paper.pages.page_map import map_height, sheet_map, sheet_sides

_MAP_TALLEST = 120.0
_SMALLER = (108.0, 96.0, 84.0, 72.0, 60.0, MAP_LEAST)
_BESIDE = 36.0
"""Beside a narrow map so much is enough for words, mm."""

Part: TypeAlias = Callable[[Flow], object]
"""What is set into a flow."""


def put_map(flow: Flow, about: Guide, beside: Sequence[Part] = (), tallest: float = _MAP_TALLEST) -> list[Part]:
    """The map as large as the rest of the page allows; on a page of its own where that is too little.

    Smaller where more of the parts then have room `beside` it; gives those that have none.
    """
    heading(flow, about.wording.say("guide.map"), map_height(flow.width, about.grid, MAP_LEAST))
    high = _map_beside(flow, about, beside, tallest)
    drawn = sheet_map(about.drawing, about.grid, high / sheet_sides(about.grid)[1])
    aside, top = flow.width - _free(flow, about, high), flow.y
    flow.put(said_as(drawn, Passage("Figure", about.wording.say("guide.map"))), high + 1.0)
    if _free(flow, about, high) < _BESIDE:
        return list(beside)
    frame = Frame(flow.frame.page, flow.frame.x + aside, top, flow.width - aside, top + high + 1.0)
    return _fitted(Flow([frame], flow.pages), beside)


def _map_beside(flow: Flow, about: Guide, beside: Sequence[Part], tallest: float) -> float:
    """The greatest height of the map at which as many parts as at any have room beside it, or below."""
    largest = map_height(flow.width, about.grid, min(flow.room - 1.0, tallest))
    heights = [largest, *(high for high in _SMALLER if high < largest)]
    left = [len(_over(flow, about, high, beside)) for high in heights]
    return heights[left.index(min(left))]


def _over(flow: Flow, about: Guide, high: float, beside: Sequence[Part]) -> list[Part]:
    """Which parts would have no room beside a map of this height nor below it."""
    below = Flow([Frame(0, 0.0, 0.0, flow.width, flow.room)], {})
    below.put([], min(high + 1.0, flow.room))
    return _fitted(below, _beside_of(flow, about, high, beside))


def _beside_of(flow: Flow, about: Guide, high: float, beside: Sequence[Part]) -> list[Part]:
    """Which parts would have no room beside a map of this height."""
    free = _free(flow, about, high)
    return _fitted(Flow([Frame(0, 0.0, 0.0, free, high + 1.0)], {}), beside) if free >= _BESIDE else list(beside)


def _fitted(flow: Flow, parts: Sequence[Part]) -> list[Part]:
    """Set the parts that a frame has room for; those that it has none for."""
    return [part for part in parts if not placed(part, (flow, 0.0))]


def placed(part: Part, *columns: tuple[Flow, float]) -> bool:
    """Whether a part came to stand in the first column that has room for it, and so many mm to spare."""
    for flow, kept in columns:
        alone = Flow([Frame(0, 0.0, 0.0, flow.width, inf)], {})
        if not flow.at_top:
            alone.put([], 1.0)  # so that it begins as below something else
        part(alone)
        if flow.room >= alone.y + kept:
            part(flow)
            return True
    return False


def _free(flow: Flow, about: Guide, high: float) -> float:
    """How much a map of this height leaves free beside itself, mm."""
    wide, tall = sheet_sides(about.grid)
    return flow.width - wide * high / tall - INDENT
