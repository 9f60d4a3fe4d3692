"""Large sheets, rolls and the projector's page: whole pieces, true scale, layers, clear messages."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path as FolderPath

import numpy as np
import pikepdf
import pytest
import shapely

from draft.base.notes import Problems
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.pack.printed_files import HOME, large_files
from draft.paper.drawing import font
from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.drawing.papers import LARGEST
from draft.paper.drawing.wording import Wording
from draft.paper.large.large import ROLLS, SHEETS, large_paper, on_large
from draft.paper.large.projector import ENLARGED, LEAST, projected
from draft.paper.pages.paged_sheet import PagedSheet
from draft.paper.pages.sheet import PatternDrawing, draw_pattern
from draft.paper.piece.opened import turned_over
from draft.paper.piece.piece_drawing import draw_piece
from draft.paper.piece.piece_lines import Outlines
from draft.paper.piece.surface import Surface
from tests.asking import asked, bundled
from tests.paper.made_up import SIZES, make_garment
from tests.paper.reading import page_count, stroked_boxes, text_of, words_shape


@pytest.fixture(scope="module")
def drawn(garment: Garment) -> PatternDrawing:
    return draw_pattern(garment, range(7))


def _shapes(drawing: Drawing) -> list[shapely.Geometry]:
    return [shapely.union_all([shapely.Polygon(ring) for ring in footprint.rings]) for footprint in drawing.footprints]


@pytest.mark.parametrize("name", [*SHEETS, *ROLLS, "100x140cm"])
def test_pieces_lie_apart_and_whole_on_large_paper(drawn: PatternDrawing, name: str) -> None:
    sheet = on_large(drawn, large_paper(name), "t")
    shapes = _shapes(sheet.drawing)
    assert len(shapes) == len(drawn.pieces) + 1  # the heading is laid out with them
    for k, shape in enumerate(shapes):
        assert all(shape.distance(other) > 3 for other in shapes[:k])
        assert sum(sheet.grid.area(page).contains(shape) for page in sheet.grid.pages) == 1
    assert sheet.grid.shared_edges == () and sheet.guide == ()


def test_a_roll_is_as_short_as_the_pieces_allow(drawn: PatternDrawing) -> None:
    lengths = {name: on_large(drawn, large_paper(name), "t").grid.paper.height for name in ROLLS}
    area = sum(shape.area for shape in _shapes(on_large(drawn, large_paper("roll-36in"), "t").drawing))
    for name, length in lengths.items():
        width = large_paper(name).paper.width
        assert area / width < length < 1.9 * area / width, name
    assert lengths["roll-42in"] <= lengths["roll-36in"] <= lengths["roll-24in"]


def test_the_file_of_a_sheet_is_sound_true_to_size_and_layered(garment: Garment) -> None:
    said: list[str] = []
    files = large_files(garment, ["a0", "roll-36in"], HOME, ["S", "M"], tell=said.append)
    assert list(files) == ["large/a0.pdf", "large/roll-36in.pdf"]
    assert said[0] == "large/a0.pdf: 1 page of 84 x 119 cm"
    assert said[1].startswith("large/roll-36in.pdf: 1 page of 91 x")
    for data in files.values():
        with pikepdf.open(io.BytesIO(data)) as pdf:
            assert pdf.check_pdf_syntax() == []
            assert [str(group.Name) for group in pdf.Root.OCProperties.OCGs] == ["S", "M"]
        assert any(np.allclose(np.ptp(corners, axis=0), 72.0, atol=1e-3) for corners in stroked_boxes(data, 0))
        assert "Print at 100 %" in text_of(data, 0)


def test_a_piece_larger_than_a_sheet_is_cut_and_joined() -> None:
    tall = make_garment(1)
    sheet: PagedSheet = on_large(draw_pattern(tall, [0]), large_paper("41x45cm"), "t")
    assert sheet.grid.shared_edges and len(sheet.grid.pages) > 2
    crossed = {frozenset((shared.first.number, shared.second.number)) for shared in sheet.grid.shared_edges}
    neighbours = {
        frozenset((a.number, b.number))
        for a in sheet.grid.pages for b in sheet.grid.pages
        if abs(a.row - b.row) + abs(a.column - b.column) == 1
    }  # fmt: skip
    assert crossed <= neighbours


@pytest.mark.parametrize(
    ("name", "message", "hint"),
    [
        ("a00", "`a00` is not a large paper", "a0"),
        ("a4", "`a4` is not a large paper", ""),
        ("20x30cm", "less than 40 cm", "--page"),
        ("1x900in", "less than 40 cm", "--page"),
        ("30x900in", "more than 200 in long", ""),
        ("roll-10in", "less than 40 cm", "--page"),
        ("x" * 500, "is not a large paper", "projector"),
    ],
)
def test_paper_that_is_not_large_is_told(name: str, message: str, hint: str) -> None:
    with pytest.raises(Problems) as caught:
        large_paper(name)
    assert message in caught.value.notes[0].message
    assert not hint or hint in caught.value.notes[0].hints[0]


def test_a_piece_wider_than_a_roll_is_told(drawn: PatternDrawing) -> None:
    with pytest.raises(Problems) as caught:
        on_large(drawn, large_paper("roll-40cm"), "t")
    assert "does not fit on `roll-40cm`" in caught.value.notes[0].message


def test_the_projectors_page_has_a_grid_a_square_and_thick_lines(drawn: PatternDrawing, garment: Garment) -> None:
    drawing = projected(drawn)
    assert [layer.name for layer in drawing.layers] == ["grid", *(f"size-{s}" for s in reversed(SIZES)), "shared"]
    square = next(i for i in drawing.items() if isinstance(i, Path) and i.id == "test-square")
    assert np.allclose(np.ptp(square.runs[0][:, 0], axis=0), 304.8)
    cuts = [i for i in drawing.items() if isinstance(i, Path) and ".cut" in i.id and i.stroke]
    assert min(path.stroke.width for path in cuts if path.stroke) >= 0.45 * ENLARGED - 1e-9
    heights = {layer.name: len(layer.items) for layer in drawing.layers}
    assert heights["grid"] == 3 and max(drawing.width, drawing.height) < LARGEST
    for axis, side in ((0, drawing.width), (1, drawing.height)):
        assert abs(side / 25.4 - round(side / 25.4)) < 1e-9, axis
    data = large_files(garment, ["projector"])["projector.pdf"]
    assert page_count(data) == 1 and "12 in" in text_of(data, 0)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert [str(group.Name) for group in pdf.Root.OCProperties.OCGs] == [*SIZES, "grid"]
        assert "/PrintScaling" not in pdf.Root.ViewerPreferences


def test_words_are_large_and_upright_on_the_projectors_page_and_no_grid_runs_through_them(
    drawn: PatternDrawing,
) -> None:
    drawing = projected(drawn)
    words = [item for item in drawing.items() if isinstance(item, Label)]
    assert {"XS", "3XL"} <= {label.text for label in words}
    assert min(label.size for label in words) * font.CAP_HEIGHT >= LEAST - 1e-9 and {
        label.angle % 360 for label in words
    } == {0.0}
    *lines, white = drawing.layers[0].items
    assert isinstance(white, Path) and white.fill == "#ffffff" and all(isinstance(line, Path) for line in lines)
    whites = [i for layer in drawing.layers for i in layer.items if isinstance(i, Path) and i.fill == "#ffffff"]
    free = shapely.union_all([shapely.Polygon(run[:, 0]) for path in whites for run in path.runs]).buffer(1e-6)
    assert all(free.contains(words_shape(label)) for label in words)


def test_pieces_keep_their_grain_and_are_opened_out_on_the_projectors_page(drawn: PatternDrawing) -> None:
    folded = 0
    for footprint, piece in zip(projected(drawn).footprints, drawn.garment.pieces, strict=True):
        alone = next(p.footprint for p in drawn.pieces if p.footprint.name == footprint.name)
        for half, whole in zip(alone.by_size, footprint.by_size, strict=True):
            (wide, tall), (shown_wide, shown_tall) = (np.ptp(np.concatenate(rings), axis=0) for rings in (half, whole))
            assert np.isclose(shown_wide, wide * (2 if piece.on_fold else 1)) and np.isclose(shown_tall, tall)
        folded += piece.on_fold
    words = [item.text for item in projected(drawn).items() if isinstance(item, Label)]
    assert folded and "place on fold" not in words and not [text for text in words if "on fold" in text]


def _same(runs: Sequence[np.ndarray], others: Sequence[np.ndarray]) -> bool:
    return [run.shape for run in runs] == [run.shape for run in others] and all(map(np.allclose, runs, others))


def test_both_halves_have_the_same_lines_and_their_notches(drawn: PatternDrawing) -> None:
    piece = next(piece for piece in drawn.garment.pieces if piece.on_fold)
    whole = draw_piece(drawn.garment, piece, [0], "both", drawn.wording, Surface(enlarged=7.0, level=True, opened=True))
    fold = Outlines.of(drawn.garment, piece, 0).fold
    assert fold
    paths = [item for item in whole.sized[0] if isinstance(item, Path)]
    named = [path for path in paths if path.id]
    for path in named:
        over = [turned_over(run, fold) for run in path.runs]
        assert any(_same(other.runs, over) for other in paths), path.id
    assert any("notch" in path.id for path in named)


def test_every_size_has_its_name_on_a_projected_piece_with_room(drawn: PatternDrawing) -> None:
    piece = next(piece for piece in drawn.garment.pieces if piece.on_fold)
    seen = Surface(enlarged=7.0, level=True, opened=True)
    whole = draw_piece(drawn.garment, piece, drawn.bodies, "cutting", drawn.wording, seen)
    named = [{item.text for item in items if isinstance(item, Label)} for items in whole.sized]
    assert sum(size in names for size, names in zip(SIZES, named, strict=True)) >= 5


def test_in_centimetres_alone_the_square_is_thirty() -> None:
    drawing = projected(draw_pattern(make_garment(1), [0], wording=Wording(units="cm")))
    square = next(i for i in drawing.items() if isinstance(i, Path) and i.id == "test-square")
    assert np.allclose(np.ptp(square.runs[0][:, 0], axis=0), 300.0)
    assert "30 cm" in [i.text for i in drawing.items() if isinstance(i, Label)]


def test_the_ruler_beside_a_foot_is_not_as_long_as_it(drawn: PatternDrawing) -> None:
    drawing = projected(drawn)
    named = {i.id: i for i in drawing.items() if isinstance(i, Path)}
    foot, ruler = named["test-square"], named["test-metric"]
    tall = [float(np.ptp(np.concatenate(path.runs)[:, [0, 3], 1])) for path in (foot, ruler)]
    assert tall == pytest.approx([304.8, 200.0])
    assert ruler.box()[0, 0] > foot.box()[1, 0] + 15.0


def test_a_projected_nest_says_what_each_size_measures_and_what_its_signs_mean() -> None:
    garment = bundled("marlpit").garment
    drawing = projected(draw_pattern(garment, range(len(garment.sizes))))
    shared = next(layer for layer in drawing.layers if layer.name == "shared")
    said = [item.text for item in shared.items if isinstance(item, Label)]
    bust = next(row for row in garment.finished if row.name == "bust")
    assert "Bust, cm" in said and f"{bust.values[2] / 10:.0f}" in said
    assert "snip here; it meets its like at the" in said and "lay this side on a fold of the cloth" not in said
    words = [words_shape(item) for item in drawing.items() if isinstance(item, Label)]
    page = shapely.box(0, 0, drawing.width, drawing.height)
    assert all(page.contains(word) for word in words)
    assert all(item.size * font.CAP_HEIGHT > LEAST - 0.01 for item in shared.items if isinstance(item, Label))


def test_the_grid_is_whole_behind_a_size_that_is_not_shown(drawn: PatternDrawing) -> None:
    drawing = projected(drawn)
    white = [[i for i in layer.items if isinstance(i, Path) and i.fill == "#ffffff"] for layer in drawing.layers]
    shared = [item for item in drawing.layers[-1].items if isinstance(item, Label)]
    assert len(white[0][0].runs) == len(shared)
    for layer, boxes in list(zip(drawing.layers, white, strict=True))[1:-1]:
        assert len(boxes[0].runs) == sum(isinstance(item, Label) for item in layer.items)


def test_a_large_sheet_has_the_key_of_its_signs() -> None:
    garment = bundled("tidemill").garment
    sheet = on_large(draw_pattern(garment, range(len(garment.sizes))), large_paper("a0"), "t").drawing
    said = " ".join(item.text for item in sheet.items() if isinstance(item, Label))
    assert "snip here; it meets its like at the other side of the seam" in said and "a level of the body" in said


def test_the_middle_of_a_piece_that_is_shown_whole_is_no_fold(drawn: PatternDrawing) -> None:
    """Who folds the cloth there, as the booklet's layouts do, gets it twice."""
    drawing = projected(drawn)
    on_fold = {f"{piece.name}.{edge.name}" for piece in drawn.garment.pieces for edge in piece.edges if edge.on_fold}
    folds = [item for item in drawing.items() if isinstance(item, Path) and item.id.rsplit(".", 1)[0] in on_fold]
    assert folds and all(
        item.stroke and 3 * item.stroke.dash[0] == pytest.approx(item.stroke.dash[1]) for item in folds
    )
    words = " ".join(item.text for item in drawing.items() if isinstance(item, Label))
    assert "lay the cloth open" in words and "on a fold of the cloth" not in words


def test_each_size_of_a_projected_level_stands_below_its_word_in_order() -> None:
    garment = bundled("breakwater").garment
    drawing = projected(draw_pattern(garment, range(len(garment.sizes))))
    heads = [
        item for layer in drawing.layers for item in layer.items if isinstance(item, Label) and item.text == "bust"
    ]
    assert {round(head.x, 1) for head in heads} and len(heads) == 7 * len({(round(h.x), round(h.y)) for h in heads})
    for x, y in {(head.x, head.y) for head in heads}:
        below = [
            next(
                (one for one in layer.items if isinstance(one, Label) and one.text == layer.size and _under(one, x, y)),
                None,
            )
            for layer in drawing.layers
            if layer.size in garment.sizes
        ]
        heights = [one.y for one in reversed(below) if one]
        assert len(heights) == 7 and heights == sorted(heights)


def _under(label: Label, x: float, y: float) -> bool:
    return not label.bold and abs(label.x - x) < 1 and 0 < label.y - y < 250


STRIP = """
pattern belt
    title "Belt"
    allowance 2 mm
    chart "sizes.csv"

body
    bust_girth

piece strip
    points
        a  at 0, 0
        b  at bust_girth + 40 cm, 0
        c  from b: 3 mm up
        d  from a: 3 mm up
    outline
        low   a to b  straight
        end   b to c  straight
        high  c to d  straight
        begin d to a  straight
    grain  along a to b
    cut 1
"""


def test_a_strip_wider_than_a_roll_lies_along_it_though_its_words_stand_beside_it(tmp_path: FolderPath) -> None:
    file = tmp_path / "strip.piece"
    file.write_text(STRIP, encoding="utf-8")
    (tmp_path / "sizes.csv").write_text("measure,unit,M\nbust_girth,cm,90\n", encoding="utf-8")
    drawn = draw_pattern(draft_and_check(asked(file)).garment, [0])
    assert drawn.pieces[0].footprint.outline
    sheet = on_large(drawn, large_paper("roll-24in"), "t")
    wide, tall = max((np.ptp(np.concatenate(one.rings), axis=0) for one in sheet.drawing.footprints), key=max)
    assert wide < 100 < 1300 < tall
