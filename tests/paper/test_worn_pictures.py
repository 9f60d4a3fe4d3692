"""A garment on a form, drawn: what is hidden is left out, rings enclose what they should, scales survive in grey."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import numpy as np
import pikepdf
import pytest
import shapely

from draft.base.arrays import Floats
from draft.form.field import field_of
from draft.form.landmarks import landmarks_of
from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import Wording
from draft.paper.worn.level_rings import level_rings
from draft.paper.worn.nearest_seen import Body, Frame, across, nearest_seen
from draft.paper.worn.three_views import three_views
from draft.paper.worn.worn_beside import worn_beside
from draft.paper.worn.worn_colours import CLOTH, DOTS, STANDS_OFF, STRETCHED, darker
from draft.paper.worn.worn_files import sheet_files
from draft.paper.worn.worn_sheet import WornSheet, frame_of, worn_sheet
from draft.paper.worn.worn_words import about, sentence, sentences
from draft.sitting.reading import HemRead, LevelRead, Reading
from draft.sitting.sit_said import said
from draft.sitting.sit_told import telling
from draft.sitting.worn_of import form_alone
from tests.form.made_up import form
from tests.sitting.made_up import worn

READING = Reading(
    (
        LevelRead("bust", -230, 0.03, 0.058, -0.01, 0.5, None, 0.008),
        LevelRead("waist", -400, 0.0, 0.0, 0.0, 0.5, 153.0, 0.002),
        LevelRead("hip", -570, 0.08, 0.08, 0.08, 0.4, None, 0.004),
    ),
    HemRead(24.0, 12.0, 7.0, 5.0),
    stays=14.0,
    rides=46.0,
    reaches=38.0,
    hollow=("back waist", 43.0),
    estimated=("bust_depth",),
    outside={"hip_girth": 1400.0},
    left_out=("tie",),
)
SHEET = WornSheet("Marlpit top, size M", "Ines", worn(), telling(READING, by_ease=False))


@pytest.fixture(scope="module")
def english() -> Drawing:
    return worn_sheet(SHEET, Wording("en", "cm"))


def test_rings_enclose_what_is_above_and_leave_holes_open() -> None:
    row, column = np.mgrid[:60, :80]
    away = np.hypot(column - 40, row - 30)
    outer, inner = sorted(
        (shapely.Polygon(ring) for ring in level_rings(np.minimum(20.3 - away, away - 8.1), 0.02)),
        key=lambda ring: -ring.area,
    )
    assert outer.area == pytest.approx(np.pi * 20.3**2, rel=0.01)
    assert inner.area == pytest.approx(np.pi * 8.1**2, rel=0.03)
    assert outer.exterior.is_ccw != inner.exterior.is_ccw
    assert len(level_rings(5.0 - np.hypot(column - 2, row - 2))) == 1  # cut off by the picture's edge, and closed
    assert level_rings(np.full((5, 5), -1.0)) == []


def _ball(x: float, y: float, z: float, radius: float) -> Body:
    up, round_it = np.meshgrid(np.linspace(-np.pi / 2, np.pi / 2, 40), np.linspace(0, 2 * np.pi, 80), indexing="ij")
    points = np.stack([np.cos(up) * np.cos(round_it), np.cos(up) * np.sin(round_it), np.sin(up)], axis=-1) * radius
    at = np.arange(40 * 80).reshape(40, 80)
    a, b, c, d = at[:-1, :-1].ravel(), at[:-1, 1:].ravel(), at[1:, 1:].ravel(), at[1:, :-1].ravel()
    triangles = np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)])
    flat: Floats = points.reshape(-1, 3) + np.array([x, y, z])
    return Body(flat, triangles, flat[:, 2:])


def test_the_nearer_of_two_balls_hides_the_other_from_where_it_is_nearer() -> None:
    frame = Frame(-100, 100, -60, 60, 1.0)
    near, far = _ball(0, -50, 0, 30), _ball(0, 50, 0, 40)
    front, back = (nearest_seen([near, far], side, frame) for side in ("front", "back"))
    assert front.shows(0).sum() == pytest.approx(np.pi * 30**2, rel=0.02)
    assert front.shows(1).sum() == pytest.approx(np.pi * (40**2 - 30**2), rel=0.03)
    assert back.shows(0).sum() == 0 and back.shows(1).sum() == pytest.approx(np.pi * 40**2, rel=0.02)
    side = nearest_seen([near, far], "side", frame)
    assert side.shows(0).sum() > 2000 and side.shows(1).sum() > 4000
    rows = front.figures[:, 100, 0][front.shows(0)[:, 100]]
    assert (np.diff(rows) < 0).all() and rows[0] == pytest.approx(29.5, abs=1)  # figures are carried: heights fall
    assert front.light[25, 80] > front.light[85, 120]  # light comes from the upper left


def test_her_left_is_to_the_right_from_in_front() -> None:
    left = np.array([[1.0, 0.0, 0.0]])
    assert across(left, "front")[0, 0] == 1 and across(left, "back")[0, 0] == -1
    assert across(left, "side")[0, 1] == -1  # it is nearest there
    assert across(np.array([[0.0, -1.0, 0.0]]), "side")[0, 0] == -1  # the front lies to the left
    assert across(left, "right")[0, 1] == 1 and across(np.array([[0.0, -1.0, 0.0]]), "right")[0, 0] == 1


def _grey(colour: str) -> float:
    """Relative luminance by the weights of ITU-R BT.709, from gamma-encoded figures: good enough to order tones."""
    red, green, blue = (int(colour[k : k + 2], 16) for k in (1, 3, 5))
    return (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255


def test_both_scales_darken_step_by_step_in_grey_and_have_marks_of_their_own() -> None:
    for scale in (STRETCHED, STANDS_OFF):
        tones = [_grey(CLOTH), *(_grey(band.colour) for band in scale)]
        assert (np.diff(tones) < -0.03).all()
        assert (np.diff([band.mark for band in scale]) > 0).all()
    assert _grey(darker("#f4f1ea", 0.5)) == pytest.approx(_grey("#f4f1ea") / 2, abs=0.01)


def _labels(drawing: Drawing) -> list[str]:
    return [item.text for item in drawing.items() if isinstance(item, Label)]


def test_a_sheet_has_three_views_both_scales_and_what_it_is_not(english: Drawing) -> None:
    said = _labels(english)
    wanted = ["Front", "Back", "Side, without the arm", "Stretched by", "Stands off by", "What it shows"]
    assert {*wanted, "What to do", "A form of your measures, not you."} <= set(said)
    assert sum(text.startswith("1 : ") for text in said) == 1
    fills = {item.fill for item in english.items() if isinstance(item, Path)}
    assert {band.colour for band in STRETCHED[:4]} <= fills and {band.colour for band in STANDS_OFF[:3]} <= fills
    assert DOTS in fills
    assert len(svg(english)) < 250_000 and english.width == 190 and english.height < 260  # Letter is 279 mm tall


def test_what_is_drawn_stays_on_the_sheet(english: Drawing) -> None:
    for item in english.items():
        if isinstance(item, Path):
            low, high = item.box()
            assert (low > -0.5).all() and high[0] < english.width + 0.5 and high[1] < english.height + 0.5


def test_a_sheet_is_read_out_in_order_and_its_pictures_are_told(english: Drawing) -> None:
    """ISO 32000-1, 14.8.4: headings, paragraphs, and figures with an alternative; nothing on it is ornament."""
    read = list(dict.fromkeys(item.passage for item in english.items()))
    assert None not in read
    roles = [one.role for one in read if one]
    assert roles[:4] == ["H1", "P", "Figure", "H2"] and roles.count("Figure") == 6 and roles.count("H2") == 2
    told = [one.text for one in read if one and one.role == "Figure"]
    assert told[0].startswith("The garment on the form") and told[1].startswith("Stretched by 1 %, 3 %")
    doubt = "Not to be trusted: forms of the same girths disagree, or a band, a facing or the arm is near"
    assert told[3:] == ["Pulls this way", "Level with the hem at the back", doubt]
    files = sheet_files("M", english, "en")
    with pikepdf.open(io.BytesIO(files["M.pdf"])) as pdf:
        assert pdf.Root.MarkInfo.Marked and str(pdf.Root.Lang) == "en"
        alternatives = [str(one.Alt) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one]
    assert sorted(alternatives) == sorted(told)


def test_a_long_garment_is_drawn_as_large_as_a_page_holds() -> None:
    low = replace(SHEET.worn, points=SHEET.worn.points * [1.0, 1.0, 1.7])
    for sheet in (SHEET, replace(SHEET, worn=low)):
        drawing = worn_sheet(sheet, Wording("de", "both"))
        assert drawing.height < 260
        scale = next(text for text in _labels(drawing) if text.startswith("1 : "))
        assert 8 < int(scale[4:]) <= 20


def test_sides_that_differ_are_looked_at_from_both() -> None:
    apart = replace(SHEET, worn=replace(SHEET.worn, apart=True))
    for drawing in (
        worn_sheet(apart, Wording("en", "cm")),
        three_views(apart.worn, 180.0, Wording("en", "cm")),
        worn_beside("Two", [apart, replace(SHEET, told=SHEET.told[:2])], Wording("en", "cm"))[0],
    ):
        said = _labels(drawing)
        assert said.count("Left side") == said.count("Right side") == 1
        for item in drawing.items():
            if isinstance(item, Path):
                assert item.box()[0].min() > -0.5 and item.box()[1][0] < drawing.width + 0.5


def test_rows_are_shared_out_over_pages_at_one_scale() -> None:
    found = worn_beside("Five", [SHEET] * 5, Wording("de", "both"), ["Heading", "A line"])
    assert 2 <= len(found) <= 5 and all(one.height < 260 for one in found)
    said = [_labels(one) for one in found]
    assert sum(words.count(SHEET.title) for words in said) == 5
    assert len({text for words in said for text in words if text.startswith("1 : ")}) == 1
    assert all("Eine Form nach diesen Maßen, kein Mensch." in words for words in said)
    assert [words.count("A line") for words in said] == [1, *[0] * (len(found) - 1)]


def test_the_right_side_mirrors_the_left_where_they_are_alike() -> None:
    frames = [frame_of(SHEET.worn, side) for side in ("side", "right")]
    assert (frames[0].left, frames[0].right) == pytest.approx((-frames[1].right, -frames[1].left))
    body = Body(SHEET.worn.bare, SHEET.worn.bare_triangles, SHEET.worn.bare[:, 2:])
    both = Frame(-300, 300, -700, 100, 4.0)
    left, right = (nearest_seen([body], side, both).which for side in ("side", "right"))
    assert (left == right[:, ::-1]).mean() > 0.995 and (left == right).mean() < 0.97


def test_of_a_skirt_the_trunk_is_shown_above_and_nothing_of_arms() -> None:
    levels = SHEET.worn.levels
    low = SHEET.worn.points * [1.0, 1.0, 0.5] + [0.0, 0.0, levels["waist"] - 30.0]
    skirt = replace(SHEET, worn=replace(SHEET.worn, points=low))
    assert skirt.worn.from_waist and not SHEET.worn.from_waist
    said = _labels(worn_sheet(skirt, Wording("en", "cm")))
    assert "Side" in said and not any("without" in text for text in said) and "Bust" not in said
    frame = frame_of(skirt.worn, "front")
    assert low[:, 2].max() < frame.high < levels["bust"] + 60.0


def test_raised_hands_are_on_the_sheet() -> None:
    raised = field_of(form(), 0, np.radians(-60.0)), field_of(form(), 0, np.radians(-60.0), armless=True)
    alone = form_alone(*raised, landmarks_of(form(), 0))
    frame = frame_of(alone, "front")
    assert frame.high > alone.skin[:, 2].max() and frame.right > alone.skin[:, 0].max()
    down = (field_of(form(), 0, np.radians(50.0), armless=armless) for armless in (False, True))
    hanging = form_alone(*down, landmarks_of(form(), 0))
    assert frame_of(hanging, "front").right < 400.0
    up = np.array([[600.0, -110.0, 400.0], [620.0, -110.0, 400.0], [600.0, -110.0, 420.0]])
    sleeve = replace(alone, points=up, triangles=np.array([[0, 1, 2]]))
    assert frame_of(sleeve, "front").high > 420.0  # a sleeve that is held up is seen whole


def test_german_says_the_same_number_of_things() -> None:
    german = worn_sheet(SHEET, Wording("de", "cm"))
    assert "Eine Form nach diesen Maßen, kein Mensch." in _labels(german) and "Gedehnt um" in _labels(german)


GOLDEN = [
    "Bust: the front is close, stretched across by 6 % of the 50 % that the cloth gives, give or take 0.8 %; "
    "the back hangs slack.",
    "Hip: tight: stretched across by 8 % of the 40 % that the cloth gives, give or take 0.5 %.",
    "At the waist there is room: 15.5 cm round the body, give or take 1 cm.",
    "In the hollow of the back it stands off by some 4.5 cm.",
    "The hem lies 2.5 cm higher in front than at the back, give or take 0.5 cm.",
    "It rides up, by as much as 5 cm; cloth and skin decide how far.",
    "When you raise your arms the hem lifts, by as much as 4 cm.",
    "If you want it less close at the hip: a larger size there, or more ease.",
    "In front it wants more width over the bust than behind: choose by the bust, or a style or pattern "
    "that is shaped there.",
    "Measure bust depth, and look again: so far that is estimated, and what is shown leans on it.",
    "Hip girth: outside of the bodies that such forms were judged on, so trust it less.",
    "Not on the form: tie.",
]


def test_what_is_said_word_for_word() -> None:
    assert sentences(SHEET.told, Wording("en", "cm")) == GOLDEN


def test_lengths_are_said_as_far_as_they_are_known() -> None:
    cm, inch, both = (Wording("en", units) for units in ("cm", "in", "both"))
    assert (
        about(23.4, cm) == "2.5 cm"
        and about(38.0, cm, whole=True) == "4 cm"
        and about(1.0, cm) == "0.5 cm"
        and about(51.0, cm, whole=True) == "6 cm"
    )
    assert about(25.4, inch) == "1 in" and about(43.0, both) == "1 3/4 in (4.5 cm)"
    assert sentence(said("firm", name_level="hip", share_stretched=0.12, share_doubt=0.005), cm) == (
        "Hip: too small: it would have to stretch by 12 %, give or take 0.5 %, and the cloth gives nothing."
    )


def test_every_sentence_has_its_words_in_every_language() -> None:
    keys = {one.key for one in telling(READING, True)}
    for language in ("en", "de"):
        texts = Wording(language).texts(("sit.",))
        assert {f"sit.{key}" for key in keys} <= set(texts)
        assert not [
            text for text in texts.values() if re.search(r"pressure|mmHg|medical", text) and "Nothing" not in text
        ]


def test_a_sheet_as_files(english: Drawing) -> None:
    found = sheet_files("sit/M", english, "en")
    assert set(found) == {"sit/M.svg", "sit/M.pdf", "sit/M.png"}
    assert found["sit/M.pdf"].startswith(b"%PDF") and found["sit/M.png"].startswith(b"\x89PNG")
