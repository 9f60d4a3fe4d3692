"""Marks of several sizes on one another: each is told from the others, and from the lines that are cut along."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
import shapely

from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Label, Path
from draft.paper.piece.piece_drawing import PieceDrawing, draw_piece
from draft.paper.piece.piece_lines import Outlines
from draft.seams.joins_in_order import letters
from tests.asking import bundled
from tests.paper.reading import line_shape, words_shape

SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL")


def _nest(pattern: str, piece: str) -> PieceDrawing:
    garment = bundled(pattern).garment
    return draw_piece(garment, garment.piece(piece), range(len(garment.sizes)))


def _paths(drawn: PieceDrawing, mark: str) -> list[Path]:
    """The path of a mark in each size."""
    ids = {f"{drawn.name}.{mark}.{size}" for size in SIZES}
    return [item for items in drawn.sized for item in items if isinstance(item, Path) and item.id in ids]


@pytest.mark.parametrize(
    ("piece", "level"), [("front", "hip"), ("front", "knee"), ("back", "hip"), ("back", "thigh"), ("back", "knee")]
)
def test_levels_of_a_nest_stand_apart_and_at_their_own_height(piece: str, level: str) -> None:
    garment, drawn = bundled("boatyard").garment, _nest("boatyard", piece)
    signs = _paths(drawn, level)
    assert len(signs) == 7
    boxes = [shapely.box(*sign.box().ravel()) for sign in signs]
    assert all(not a.intersects(b) for k, a in enumerate(boxes) for b in boxes[:k])
    mark = next(mark for mark in garment.piece(piece).marks if mark.name == level)
    heights = [sign.runs[0][:, 0, 1].mean() for sign in signs]
    assert np.allclose(heights, -mark.points[:, 0, 1], atol=1e-4)


def test_a_level_at_one_height_in_all_sizes_has_one_sign_and_one_word() -> None:
    """The thigh of trousers is at the crotch, about which all sizes are laid on one another."""
    drawn = _nest("boatyard", "front")
    assert len({tuple(sign.runs[0][0, 0].round(1)) for sign in _paths(drawn, "thigh")}) == 1
    assert not any("thigh" in item.text for items in drawn.sized for item in items if isinstance(item, Label))
    assert any(item.text.startswith("Thigh") for item in drawn.shared if isinstance(item, Label))


@pytest.mark.parametrize("pattern", ["breakwater", "marlpit", "netloft"])
def test_levels_of_a_nest_lie_inside_every_size_if_they_can(pattern: str) -> None:
    """Among the lines of others a sign is taken for one of theirs. Netloft's busts are too near for a column."""
    garment, drawn = bundled(pattern).garment, _nest(pattern, "back")
    least = Outlines.of(garment, garment.piece("back"), 0).sewing_shape
    for level in ("bust", "waist"):
        points = [sign.runs[0][:, 0].mean(axis=0) for sign in _paths(drawn, level)]
        assert len(points) == 7 and ((pattern, level) == ("netloft", "bust") or np.ptp([x for x, _ in points]) < 0.01)
        assert all(least.contains(shapely.Point(point)) for point in points)


@pytest.mark.parametrize("level", ["hip", "knee"])
def test_a_level_of_a_nest_is_named_with_its_size(level: str) -> None:
    for size, items in zip(SIZES, _nest("boatyard", "front").sized, strict=True):
        said = [item for item in items if isinstance(item, Label) and item.text == f"{level} {size}"]
        assert len(said) == 1 and not said[0].bold


def test_a_fold_that_all_sizes_share_is_one_line_of_which_each_has_its_own_and_bears_no_name() -> None:
    garment, drawn = bundled("boatyard").garment, _nest("boatyard", "front")
    mark = next(mark for mark in garment.piece("front").marks if mark.name == "crease")
    folds = _paths(drawn, "crease")
    assert len(folds) == 7
    for body, fold in enumerate(folds):
        own = shapely.LineString(mark.points[body] * [1, -1])
        assert own.buffer(0.01).contains(line_shape(fold))
    begun = {tuple(run[0, 0].round(6)) for fold in folds for run in fold.runs}
    assert len(begun) == 2  # the dashes of all sizes lie on one another
    words = [item.text for item in drawn.shared if isinstance(item, Label)]
    assert words.count("crease") == 2  # at either end


def test_legs_of_darts_that_lie_across_one_another_are_drawn_at_both_ends() -> None:
    drawn = _nest("boatyard", "back")
    legs = [[line_shape(Path((run,))) for run in path.runs] for path in _paths(drawn, "waist_dart")]
    assert all(len(some) == 4 and all(leg.length < 15 for leg in some) for some in legs)
    for size, items in zip(SIZES, drawn.sized, strict=True):
        names = [item.text for item in items if isinstance(item, Label) and not item.bold]
        assert names.count(size) >= 2  # at the point and at the mouth


def test_neighbouring_notches_in_one_line_do_not_run_into_one_another() -> None:
    drawn = _nest("marlpit", "front")
    for number in range(1, 6):
        found = [
            line_shape(item)
            for items in drawn.sized
            for item in items
            if isinstance(item, Path) and f".notch{number}." in item.id
        ]
        assert all(a.distance(b) > 0.2 for k, a in enumerate(found) for b in found[:k])


def test_an_outline_on_which_a_pocket_is_set_has_its_corners_alone_and_each_bears_its_size() -> None:
    """Whole outlines of seven sizes, in their dashes, were taken for the cutting lines that they lie across."""
    drawn, pattern = _nest("boatyard", "back"), bundled("boatyard").garment.piece("back")
    mark = next(mark for mark in pattern.marks if mark.name == "pocket_line")
    for body, (path, items) in enumerate(zip(_paths(drawn, "pocket_line"), drawn.sized, strict=True)):
        assert path.stroke and path.stroke.colour == line_styles.cutting_stroke(body).colour and not path.stroke.dash
        assert line_shape(path).length < 0.35 * shapely.LineString(mark.points[body]).length
        names = [words_shape(item) for item in items if isinstance(item, Label) and item.text == SIZES[body]]
        led = [item.runs[0][0, 0] for item in items if isinstance(item, Path) and "leader" in dict(item.data)]
        for corner in mark.points[body] * [1, -1]:
            point = shapely.Point(corner)
            assert line_shape(path).distance(point) < 0.01
            ends = [shapely.Point(end) for end in led]
            assert min(point.distance(other) for other in [*names, *ends]) < 12


@pytest.mark.parametrize(("piece", "name"), [("front", "mouth_line"), ("front", "fly_line")])
def test_a_line_without_corners_is_drawn_whole_in_the_dashes_of_the_key(piece: str, name: str) -> None:
    for path in _paths(_nest("boatyard", piece), name):
        assert path.stroke and path.stroke.dash == (5.0, 1.2, 1.2, 1.2)


def test_a_slit_begins_where_the_cloth_is_cut() -> None:
    garment = bundled("lockside").garment
    drawn = draw_piece(garment, garment.piece("sleeve"), [2])
    slit = next(item for item in drawn.sized[0] if isinstance(item, Path) and item.id == "sleeve.slit")
    cuts = [line_shape(item) for item in drawn.sized[0] if isinstance(item, Path) and item.id.endswith(".cut")]
    assert min(cut.distance(shapely.Point(slit.runs[0][0, 0])) for cut in cuts) < 0.01


def test_no_seam_is_called_by_a_letter_that_is_taken_for_another() -> None:
    """Common practice: I, O and Q are left out; L, M and S are sizes."""
    found = [letters(number) for number in range(60)]
    assert len(set(found)) == 60 and not set("".join(found)) & set("IOQLMS")
    assert found[:9] == list("ABCDEFGHJ") and found[19:21] == ["Z", "AA"]


def test_letters_stand_at_the_end_of_a_band_in_every_size() -> None:
    """The ends of a waistband lie 4 cm apart from one size to the next."""
    drawn = _nest("boatyard", "waistband")
    said = [[item.text for item in items if isinstance(item, Label) and item.bold] for items in drawn.sized[1:]]
    letter = next(iter(said[0])) if said[0] else ""
    assert letter and all(letter in words for words in said)


def test_buttons_of_a_nest_bear_their_size() -> None:
    drawn = _nest("boatyard", "waistband")
    for size, items in zip(SIZES, drawn.sized, strict=True):
        button = next(item for item in items if isinstance(item, Path) and item.id == f"waistband.button.{size}")
        middle = shapely.Point(button.runs[0][:, 0].mean(axis=0))
        near = min((item for item in items if isinstance(item, Label) and not item.bold), key=_off(middle))
        assert near.text == size and _off(middle)(near) < 15


def _off(point: object) -> Callable[[Label], float]:
    return lambda label: float(words_shape(label).distance(point))


def test_lines_too_near_for_names_between_them_are_led_to() -> None:
    """Along the overarm of the Marlpit top, for 25 cm, lines run 1 to 2 mm apart."""
    drawn = _nest("marlpit", "front")
    for size, items in zip(SIZES[1:6], drawn.sized[1:6], strict=True):
        leaders = [item for item in items if isinstance(item, Path) and dict(item.data).get("leader") == size]
        own = [line_shape(item) for item in items if isinstance(item, Path) and item.id == f"front.overarm.cut.{size}"]
        assert own and any(own[0].distance(shapely.Point(item.runs[0][0, 0])) < 0.05 for item in leaders if item.fill)


def test_the_name_of_a_hem_stands_near_where_the_first_size_is_cut() -> None:
    garment = bundled("marlpit").garment
    drawn = draw_piece(garment, garment.piece("front"), range(7), "cutting")
    hem = next(item for item in drawn.shared if isinstance(item, Label) and item.text == "hem")
    cuts = [item for items in drawn.sized for item in items if isinstance(item, Path) and ".hem.cut." in item.id]
    assert min(words_shape(hem).distance(line_shape(cut)) for cut in cuts) < 6.0


def test_a_placket_says_which_front_has_buttons_and_which_holes() -> None:
    garment = bundled("lockside").garment
    said = " ".join(i.text for i in draw_piece(garment, garment.piece("placket"), [2]).shared if isinstance(i, Label))
    assert "buttonhole: on the right front" in said and "button: on the left front" in said


def test_the_two_strokes_of_a_double_notch_are_joined_so_that_no_other_size_can_be_meant() -> None:
    drawn = _nest("slipway", "back")
    for size, items in zip(SIZES, drawn.sized, strict=True):
        paths = {item.id: item for item in items if isinstance(item, Path)}
        pairs = [name for name in paths if ".pair" in name]
        assert pairs, size
        for name in pairs:
            notch = paths[name.replace(".pair", ".notch")]
            assert [tuple(run[-1, 3]) for run in notch.runs] == [
                tuple(paths[name].runs[0][k]) for k in ((0, 0), (-1, 3))
            ]


def test_a_line_on_which_all_sizes_are_cut_alike_says_so_once() -> None:
    """At the face of a hood seven lines lie on one another: the one that is seen has no size's name."""
    garment = bundled("hooded").garment
    drawn = draw_piece(garment, garment.piece("hood"), range(7), "cutting")
    (label,) = [item for item in drawn.shared if isinstance(item, Label) and item.bold and item.text == "XS – 3XL"]
    faces = [item for items in drawn.sized for item in items if isinstance(item, Path) and ".face.cut" in item.id]
    assert len(faces) == 7 and all(words_shape(label).distance(line_shape(face)) < 6 for face in faces)
    alone = draw_piece(garment, garment.piece("hood"), [2], "cutting")
    assert not any(item.text == "XS – 3XL" for item in alone.shared if isinstance(item, Label))


def test_a_piece_that_all_sizes_share_is_named_by_its_title_alone() -> None:
    garment = bundled("breakwater").garment
    drawn = draw_piece(garment, garment.piece("tie"), range(7), "cutting")
    assert not any(item.text == "XS – 3XL" for item in drawn.shared if isinstance(item, Label))
