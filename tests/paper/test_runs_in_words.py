"""Lines of a drawing put into words all at once say what each says alone."""

from __future__ import annotations

import re

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.paper.drawing.drawing import PT, Label, Path, Stroke, rectangle
from draft.paper.drawing.ink import page_description
from draft.paper.drawing.svg import items_svg

COORDINATE = st.integers(-40_000, 40_000).map(lambda n: n / 128)


@st.composite
def _runs(draw: st.DrawFn) -> Floats:
    points = draw(st.lists(st.tuples(COORDINATE, COORDINATE), min_size=4, max_size=13))
    ends = np.array(points[: 1 + 3 * ((len(points) - 1) // 3)], dtype=float)
    run = np.stack([ends[3 * k : 3 * k + 4] for k in range((len(ends) - 1) // 3)])
    if draw(st.booleans()):
        run[0, 1:3] = run[0, 0] + (run[0, 3] - run[0, 0]) * np.array([[1 / 3], [2 / 3]])
    return run


PATHS = st.lists(
    st.builds(
        lambda runs, closed: Path(tuple(runs), Stroke(0.2), closed=closed),
        st.lists(_runs() | st.just(rectangle(3.0, 4.0, 5.0, 6.0)) | st.just(np.zeros((0, 4, 2))), max_size=3),
        st.booleans(),
    ),
    min_size=1,
    max_size=4,
)


@settings(max_examples=60)
@given(PATHS)
def test_together_as_alone(paths: list[Path]) -> None:
    items = [*paths, Label("between", 1.0, 2.0, 3.0), *paths]
    assert items_svg(items) == [found for item in items for found in items_svg([item])]
    head = page_description(200.0, 300.0, [Path((), Stroke(0.2))]).content.split(b"\n")[:-1]
    told = page_description(200.0, 300.0, paths).content.split(b"\n")
    alone = [page_description(200.0, 300.0, [path]).content.split(b"\n")[len(head) :] for path in paths]
    assert told == head + [line for lines in alone for line in lines]


@settings(max_examples=60)
@given(_runs())
def test_the_words_are_the_points_to_a_thousandth(run: Floats) -> None:
    (element,) = items_svg([Path((run,), Stroke(0.2))]) or [""]
    said = np.array(
        [float(word) for word in re.findall(r"-?\d+(?:\.\d+)?", element.partition(' d="')[2].partition('"')[0])]
    )
    known = run.reshape(-1)
    assert all(np.abs(known - value).min() <= 0.0005 + 1e-9 for value in said)
    written = page_description(200.0, 300.0, [Path((run,), Stroke(0.2))]).content.decode("ascii")
    lines = [line.split() for line in written.split("\n") if re.fullmatch(r"[-\d. ]+ [mlc]", line)]
    assert lines[0][-1] == "m" and len(lines) == len(run) + 1
    for segment, line in zip(run, lines[1:], strict=True):
        ends = np.array(segment[1:] if line[-1] == "c" else segment[3:]) / PT
        expected = np.stack([ends[:, 0], 300.0 / PT - ends[:, 1]], axis=1).ravel()
        assert np.abs(np.array(line[:-1], dtype=float) - expected).max() <= 0.0005 + 1e-9
