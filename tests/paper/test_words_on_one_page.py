"""Words stand on one page where they can, and on the page of the mark that they belong to."""

from __future__ import annotations

import pytest
import shapely

from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.drawing.papers import paper
from draft.paper.pages.page_grid import grid
from draft.paper.pages.sheet import draw_pattern, on_pages
from tests.asking import bundled
from tests.paper.reading import line_shape, words_shape

LETTER = paper("letter")
NEAR = 12.0  # mm


def _sheet(pattern: str, *sizes: str) -> Drawing:
    garment = bundled(pattern).to_cut
    bodies = [garment.sizes.index(size) for size in sizes or garment.sizes]
    return on_pages(draw_pattern(garment, bodies), LETTER.live)


def _labels(sheet: Drawing) -> list[Label]:
    return [item for layer in sheet.layers for item in layer.items if isinstance(item, Label)]


def _edges(sheet: Drawing) -> shapely.Geometry:
    found = grid(sheet, LETTER, 1, "overlap")
    return shapely.union_all([found.area(page).boundary for page in found.pages])


@pytest.mark.parametrize("sizes", [("M",), ("S",), ()])
def test_a_title_beside_its_piece_stands_on_one_page(sizes: tuple[str, ...]) -> None:
    sheet = _sheet("lockside", *sizes)
    said = [label for label in _labels(sheet) if label.bold and label.text.lower().startswith("binding")]
    assert said and not any(words_shape(label).intersects(_edges(sheet)) for label in said)


@pytest.mark.parametrize("pattern", ["lockside", "tidemill", "ropewalk"])
def test_words_of_a_lengthening_stand_on_the_page_of_its_lines(pattern: str) -> None:
    sheet = _sheet(pattern, "M")
    edges = _edges(sheet)
    lines = [
        line_shape(item)
        for layer in sheet.layers
        for item in layer.items
        if isinstance(item, Path) and item.id and ".longer" in item.id
    ]
    words = [label for label in _labels(sheet) if label.text == "lengthen or shorten here"]
    assert words and lines
    for label in words:
        own = min(lines, key=lambda line: float(line.distance(words_shape(label))))
        way = shapely.shortest_line(words_shape(label), own)
        assert way.length < NEAR and not way.intersects(edges)


@pytest.mark.parametrize("pattern", ["marlpit", "slipway"])
def test_a_name_that_stands_at_its_notch_stands_on_its_page(pattern: str) -> None:
    sheet = _sheet(pattern)
    edges, many = _edges(sheet), 0
    for layer in sheet.layers:
        led = [item for item in layer.items if isinstance(item, Path) and "leader" in dict(item.data)]
        ends = shapely.MultiPoint([item.runs[0][-1, 3] for item in led])
        names = [words_shape(item) for item in layer.items if isinstance(item, Label) and not item.bold]
        alone = [name for name in names if name.distance(ends) > 1.0]
        for notch in layer.items if layer.size else ():
            if isinstance(notch, Path) and ".notch" in notch.id:
                inner = shapely.Point(notch.runs[0][-1, 3])
                near = [name for name in alone if name.distance(inner) < 2.2]
                many += len(near)
                assert not any(shapely.shortest_line(inner, name).intersects(edges) for name in near), notch.id
    assert many > 10
