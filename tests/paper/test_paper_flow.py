"""Words set in columns: short paragraphs stay whole, longer ones part between lines and leave none alone."""

from __future__ import annotations

import pytest

from draft.paper.drawing.drawing import Item
from draft.paper.drawing.flow import Flow, Frame, Type

SETTING = Type(10)
WIDTH = 60.0


def lines_per_page(count: int, room: int) -> list[int]:
    """How many lines of a paragraph of `count` come to stand on each page, where the first has room for so many."""
    frames = (Frame(page, 0.0, 0.0, WIDTH, 20.5 * SETTING.line_height) for page in range(9))
    pages: dict[int, list[Item]] = {}
    flow = Flow(frames, pages)
    flow.put([], (20 - room) * SETTING.line_height)
    word = "n" * 20
    text = " ".join([word] * count)
    assert SETTING.lines(text, WIDTH) == [word] * count  # a word to a line
    flow.words(text, SETTING)
    return [len(pages[page]) for page in sorted(pages)]


@pytest.mark.parametrize(
    ("count", "room", "expected"),
    [
        (2, 1, [0, 2]),
        (3, 1, [0, 3]),
        (3, 2, [0, 3]),
        (3, 3, [3]),
        (4, 1, [0, 4]),
        (4, 2, [2, 2]),
        (4, 3, [2, 2]),
        (5, 3, [3, 2]),
    ],
)
def test_up_to_three_lines_stay_together_and_of_more_none_stands_alone(
    count: int, room: int, expected: list[int]
) -> None:
    assert lines_per_page(count, room) == expected
