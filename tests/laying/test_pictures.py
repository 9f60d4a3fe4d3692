"""Cutting layouts as drawings: read as a maker would, from what is drawn."""

import re
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
import shapely

from draft.base.units import MM_PER_INCH
from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort
from draft.cloth.lays import FOLDINGS
from draft.cloth.remnant import Remnant, fits_remnant
from draft.geometry.flatten import polyline
from draft.laying.groups import groups
from draft.laying.lay_sizes import diagrams, lay_files, lay_sizes, lay_together, sizes_of
from draft.laying.picture import remnant_picture, together_picture
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Label, Path
from draft.paper.drawing.wording import Wording
from draft.paper.pictures.lay_drawing import draw_lay
from tests.asking import bundled
from tests.cloth.made_up import rectangle

QUICK = Effort(looks=400, places=2)
HASTY = Effort(looks=100, places=1)
WIDTH = 58 * MM_PER_INCH
KINDS = ("open", "one fold", "two folds")


@pytest.fixture(scope="module", params=["marlpit", "ropewalk", "tidemill"])
def garment(request):
    return bundled(request.param, "S", "XL").garment


@pytest.fixture(scope="module", params=FOLDINGS)
def drawn(request, garment):
    """Every diagram of one kind of lay, on cloth wide enough for all of them, with what it was drawn from."""
    rows = lay_sizes(garment, [Cloth(2 * WIDTH)], QUICK, foldings=(request.param,))
    return [(diagram, draw_lay(diagram.picture)) for diagram in diagrams(garment, rows)]


def _pieces(drawing):
    return [item for item in drawing.items() if isinstance(item, Path) and item.id.startswith("piece-")]


def _outline(path):
    return shapely.Polygon(np.concatenate([polyline(run) for run in path.runs]))


def _labels(drawing):
    return [item for item in drawing.items() if isinstance(item, Label)]


def test_every_place_is_drawn_with_its_number_in_the_cutting_list(drawn):
    for diagram, drawing in drawn:
        placements = Counter(str(placement.cut_piece.number) for placement in diagram.group[-1].lay.placements)
        assert Counter(dict(path.data)["number"] for path in _pieces(drawing)) == placements
        numbers = Counter(label.text for label in _labels(drawing) if label.bold and label.text.isdigit())
        assert numbers == placements


def test_pieces_lie_on_the_cloth_and_not_on_one_another(drawn):
    for _, drawing in drawn:
        cloth = next(_outline(item) for item in drawing.items() if getattr(item, "id", "") == "cloth")
        shapes = [_outline(path) for path in _pieces(drawing)]
        assert all(cloth.buffer(0.01).covers(shape) for shape in shapes)
        together_ = shapely.union_all([shape.buffer(-0.01) for shape in shapes])
        assert together_.area == pytest.approx(sum(shape.buffer(-0.01).area for shape in shapes), rel=1e-6)


def test_a_number_stands_inside_its_piece(drawn):
    for _, drawing in drawn:
        shapes = {}
        for path in _pieces(drawing):
            shapes.setdefault(dict(path.data)["number"], []).append(_outline(path))
        for label in _labels(drawing):
            if label.bold and label.text.isdigit():
                assert any(shape.contains(shapely.Point(label.x, label.y)) for shape in shapes[label.text])


def test_folds_and_selvedges_are_drawn_where_they_are(drawn):
    expected = {
        "open": ["selvedge", "selvedge"],
        "one fold": ["fold", "selvedge"],
        "two folds": ["fold", "fold", "meeting"],
    }
    for diagram, drawing in drawn:
        sides = sorted(label.id.removeprefix("side-") for label in _labels(drawing) if label.id.startswith("side-"))
        assert sides == sorted(expected[diagram.group[-1].lay.folding])


def test_halves_lie_flush_on_a_fold(drawn):
    for diagram, drawing in drawn:
        lay = diagram.group[-1].lay
        cloth = next(_outline(item) for item in drawing.items() if getattr(item, "id", "") == "cloth")
        left, _, right, _ = cloth.bounds
        for path, placement in zip(_pieces(drawing), lay.placements, strict=True):
            if placement.on_fold:
                strip = lay.strips[placement.strip]
                bounds = _outline(path).bounds
                touching = bounds[2] if strip.fold_on_right else bounds[0]
                assert touching == pytest.approx(right if strip.fold_on_right else left, abs=0.01)


def test_face_down_is_hatched_and_said(drawn):
    for diagram, drawing in drawn:
        down = [path for path in _pieces(drawing) if dict(path.data)["face"] == "down"]
        assert len(down) == sum(placement.move.face_down for placement in diagram.group[-1].lay.placements)
        said = any(label.text.startswith("Hatched") for label in _labels(drawing))
        assert said == bool(down)


def test_words_are_readable_and_on_the_sheet(drawn):
    """8 points at least, as on the pattern's own pages."""
    for _, drawing in drawn:
        for label in _labels(drawing):
            assert label.size >= 8 * PT - 1e-9
            if not label.angle and label.anchor == "start":
                end = label.x + font.text_width(label.text, label.size, label.bold)
                assert label.x > 0 and end <= drawing.width and 0 < label.y < drawing.height


def test_right_and_wrong_side_differ(drawn):
    fills = {
        diagram.group[-1].lay.folding == "open": next(
            i.fill for i in drawing.items() if getattr(i, "id", "") == "cloth"
        )
        for diagram, drawing in drawn
    }
    ((is_open, fill),) = fills.items()
    words = [label.text for label in _labels(drawn[0][1])]
    assert any(("right side up" if is_open else "wrong side out") in text for text in words)
    assert (fill == "#dedede") == is_open


def test_to_scale(drawn):
    for diagram, drawing in drawn:
        lay = diagram.group[-1].lay
        scale = {10, 15, 20}
        first = _outline(_pieces(drawing)[0])
        placement = lay.placements[0]
        whole = placement.cut_piece.area / (2 if placement.on_fold else 1)
        ratio = (whole / first.area) ** 0.5
        assert min(abs(ratio - each) for each in scale) < 0.01


# ---- which sizes share a diagram


def test_each_size_is_in_just_one_diagram_of_each_cloth():
    garment = bundled("marlpit").garment
    rows = lay_sizes(garment, [Cloth(WIDTH), Cloth(WIDTH, one_way=True)], QUICK)
    for row in rows:
        assert [need.size for group in groups(row) for need in group] == list(garment.sizes)
    assert any(len(group) > 1 for row in rows for group in groups(row))
    files = lay_files(garment, rows)
    assert "tables/cloth.csv" in files
    assert sum(name.startswith("cloth/58in-one-way-") for name in files) == len(groups(rows[1]))
    assert all(data.startswith(b"<svg") for name, data in files.items() if name.endswith(".svg"))


def test_diagrams_have_names_of_their_own_whatever_sizes_are_called() -> None:
    garment = replace(bundled("marlpit", "S", "M", "L").garment, sizes=("a b", "A-B", "CON"))
    files = lay_files(garment, lay_sizes(garment, [Cloth(WIDTH)], QUICK))
    rows = lay_sizes(garment, [Cloth(WIDTH)], QUICK)
    names = [name for name in files if name.endswith(".svg")]
    assert len({name.casefold() for name in names}) == len(names) == sum(len(groups(row)) for row in rows)


def test_the_outlines_found_for_a_garment_are_kept():
    garment = bundled("marlpit", "M").garment
    assert sizes_of(garment) is sizes_of(garment)


# ---- several at once, and the stash


def test_several_sizes_as_one_lay_say_which_is_which():
    garment = bundled("marlpit", "S", "L").garment
    need, notes = lay_together(garment, Cloth(WIDTH), 1, HASTY)
    drawing = draw_lay(together_picture(garment, need))
    assert notes == () and need.size == "S + L"
    names = [label.text for label in _labels(drawing)]
    assert {"1 S", "1 L", "2 S", "2 L", "3 S", "4 L"} <= set(names)


@pytest.mark.parametrize(("units", "bought"), [("both", r"[\d /]+ Yard oder \d,\d\d m"), ("cm", r"\d,\d\d m")])
def test_a_lay_speaks_the_language_and_the_units_of_its_reader(units, bought):
    garment = bundled("marlpit", "M").garment
    need, _ = lay_together(garment, Cloth(WIDTH), 1, QUICK)
    lay = together_picture(garment, need, Wording("de", units, {"Marlpit top": "Shirt Marlpit"}))
    assert lay.title == "Shirt Marlpit: Zuschneideplan"
    assert re.fullmatch(rf"M: .* lang, {bought} kaufen", lay.above[-1]), lay.above


def test_three_tops_need_less_than_three_times_one():
    garment = bundled("marlpit", "M").garment
    three, _ = lay_together(garment, Cloth(WIDTH), 3, HASTY)
    ((one,),) = lay_sizes(garment, [Cloth(WIDTH)], HASTY)
    assert three.length < 3 * one.length and len(three.lay.copies()) >= 15


def test_without_the_solver_a_long_effort_says_how_to_get_it(monkeypatch):
    from draft.cloth import nest

    monkeypatch.setattr(nest, "installed", lambda: False)
    garment = bundled("marlpit", "M").garment
    need, (note,) = lay_together(garment, Cloth(WIDTH), 1, replace(QUICK, outside=1))
    assert need.length > 0 and "not installed" in note.message and "plainseam[nest]" in note.hints[0]


def test_a_remnant_is_drawn_with_its_own_outline():
    garment = bundled("marlpit", "M").garment
    cut_pieces = sizes_of(garment)[0].cut_pieces
    remnant = Remnant((rectangle(1500.0, 1500.0)[[0, 1, 2, 3]] - [[0, 0], [0, 0], [300, 0], [0, 0]],))
    answer = fits_remnant(cut_pieces, remnant, False, QUICK)
    drawing = draw_lay(remnant_picture(garment, answer.lay, remnant))
    cloth = next(_outline(item) for item in drawing.items() if getattr(item, "id", "") == "cloth")
    assert cloth.area == pytest.approx(remnant.shape.area / 10**2, rel=0.01)
    assert all(cloth.buffer(0.01).covers(_outline(path)) for path in _pieces(drawing))
