"""The order of sewing and its words: what is stitched on, closed, gathered, or sewn round a point."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.geometry.length import length
from draft.paper.booklet import BookletFacts, booklet_pdf
from draft.paper.booklet.bands_section import band_ratio, opening
from draft.paper.booklet.folded_drawing import ASIDE, GROUND, WRONG, fold_of
from draft.paper.booklet.order import sewing_order
from draft.paper.booklet.so_far import done_after
from draft.paper.booklet.step_drawing import SEAM, Drawer
from draft.paper.drawing.drawing import Path as Line
from draft.paper.drawing.fractions import with_signs
from draft.paper.drawing.polygons import polygon
from draft.paper.drawing.wording import Wording
from draft.paper.flat.bands import bands
from draft.paper.flat.done import ALL
from draft.paper.flat.views import views
from draft.paper.pages.sheet import draw_pattern
from draft.seams.joins_in_order import seam_letters
from tests.asking import asked, bundled
from tests.paper.reading import page_count, text_of

HERE = Path(__file__).parents[1]


def sewing(drafted: Drafted, wording: Wording | None = None) -> str:
    data = booklet_pdf(BookletFacts(drafted, tuple(range(len(drafted.garment.sizes))), wording or Wording()))
    text = " ".join(text_of(data, page) for page in range(page_count(data)))
    return " ".join(text.replace("\r", "").split())


@pytest.fixture(scope="module")
def pocketed() -> Drafted:
    return draft_and_check(asked(str(HERE / "good" / "pocket_and_cowl.piece")))


def test_a_pocket_comes_first_and_a_cowl_is_closed_before_it_is_set_on(pocketed: Drafted) -> None:
    names = [step.name for step in sewing_order(pocketed.garment)]
    assert names == ["stay", "pocket_on", "shoulder", "cowl_seam", "neck", "side", "armhole", "hem", "top"]


def test_the_pocket_is_hemmed_turned_in_and_stitched_onto_its_line(pocketed: Drafted) -> None:
    text = sewing(pocketed)
    assert "to the wrong side along the edge “mouth” of the pocket" in text
    assert "Turn the other allowances of the pocket to the wrong side and press." in text
    assert "level with the marked line “pocket”" in text
    assert "sew it to one of them" in text
    assert "Fold the cowl in half, right sides together" in text
    assert "Lay both pieces of the cowl" not in text
    assert "Leave the edge “opening” open; sew back and forth where the seam ends." in text
    german = sewing(pocketed, Wording("de", "cm"))
    assert "Lege die Tasche auf die rechte Seite des Vorderteils, bündig mit der markierten Linie" in german


def test_the_pocket_is_seen_on_the_wearers_left_only(pocketed: Drafted) -> None:
    """On the drawing of the front that is the right."""
    sheet = views(pocketed.garment, 0)["front"]
    (drawn,) = [runs for fill, runs, _ in sheet.items if not fill and len(runs) == 1 and len(runs[0]) == 4]
    assert drawn[0][..., 0].min() == pytest.approx(50.0)


def test_the_step_of_the_pocket_shows_its_line_thick(pocketed: Drafted) -> None:
    block = Drawer.of(pocketed.garment, 0).patch(pocketed.garment.patches[0])
    assert any(isinstance(item, Line) and item.stroke == SEAM for item in block.items)
    assert block.height > 10


def test_a_pocket_on_the_fold_is_thick_on_both_halves_but_for_its_hemmed_mouths() -> None:
    garment = bundled("hooded", "M").garment
    (patch,) = garment.patches
    block = Drawer.of(garment, 0).patch(patch)
    (thick,) = [item for item in block.items if isinstance(item, Line) and item.stroke == SEAM]
    assert len(thick.runs) == 6  # base, end and top, left and right


def test_a_step_shows_no_more_than_is_sewn_when_it_is_done() -> None:
    garment = bundled("marlpit", "M").garment
    steps = sewing_order(garment)
    at = next(k for k, step in enumerate(steps) if step.name == "neck")
    early, late = done_after(steps[: at + 1]), done_after(steps)
    assert early.join("neck") and not early.join("cuff") and not early.hem("front", "hem")
    assert late.join("cuff") and late.hem("front", "hem")
    shown = [len(views(garment, 0, done)["front"].items) for done in (early, late, ALL)]
    assert shown[0] < shown[1] == shown[2]


@pytest.mark.parametrize(
    ("pattern", "join"),
    [("tidemill", "sleeve_seam"), ("tidemill", "band_ends"), ("ropewalk", "band_end"), ("ropewalk", "band_lap")],
)
def test_what_is_folded_to_be_sewn_is_drawn_folded_with_its_seam_once(pattern: str, join: str) -> None:
    garment = bundled(pattern, "M").garment
    (found,) = [one for one in garment.joins if one.name == join]
    piece = garment.piece(found.first[0].piece)
    fold = fold_of(piece, found, 0)
    assert fold is not None
    start, way = complex(*fold[0]), complex(*(fold[1] - fold[0]))
    first, second = (
        np.concatenate([piece.edge(part.edge).segments[0, [0, -1], [0, 3]] for part in parts]) @ (1, 1j)
        for parts in (found.first, found.second)
    )
    mirrored = start + way / way.conjugate() * (second - start).conjugate()
    assert all(min(abs(one - other) for other in first) < 1.5 for one in mirrored)
    assert ((first - start) / way).imag.mean() > 0
    lower, upper, seam = [item for item in Drawer.of(garment, 0).join(found).items if isinstance(item, Line)]
    assert (lower.fill, upper.fill, seam.stroke) == (GROUND, WRONG, SEAM)
    assert polygon(upper.runs[0]).area == pytest.approx(polygon(lower.runs[0]).area, rel=0.06)
    assert len(seam.runs) == len(found.first)


def test_a_pair_is_sewn_on_one_another() -> None:
    garment = bundled("hooded", "M").garment
    (found,) = [one for one in garment.joins if one.name == "hood_seam"]
    lower, upper, _ = [item for item in Drawer.of(garment, 0).join(found).items if isinstance(item, Line)]
    assert np.allclose(upper.runs[0] - lower.runs[0], ASIDE)


def test_the_ends_of_a_pointed_band_are_sewn_in_one_go_and_the_point_is_snipped() -> None:
    drafted = draft_and_check(asked("marlpit", styles={"neckline": "vee"}, sizes=("M",)))
    names = [step.name for step in sewing_order(drafted.garment)]
    assert names.index("neckband_folds") == names.index("neckband_ends") + 1
    text, letter = sewing(drafted), seam_letters(drafted.garment)["neckband_folds"]
    assert f"Go on from the seam before along the edges marked {letter}: leave the needle in the cloth" in text
    assert "snip the allowance of the opening to within 1 mm of its corner" in text


GATHERED = """
pattern skirt
    title "Skirt"

piece panel
    points
        a  at 0, 0
        b  at 60 cm, 0
        c  at 60 cm, 55 cm
        d  at 0, 55 cm
    outline
        hem     a to b  straight, turned up
        side    b to c  straight
        waist   c to d  straight
        middle  d to a  straight, on fold
    cut 2

piece waistband
    points
        a  at 0, 0
        b  at 60 cm, 0
        c  at 60 cm, 8 cm
        d  at 0, 8 cm
    outline
        long   a to b  straight
        end    b to c  straight
        inner  c to d  straight, unjoined
        other  d to a  straight
    cut 2

join
    side   panel.side to panel.side
    waist  panel.waist to waistband.long, gathered 200 %
"""


def test_gathers_are_said_where_a_band_takes_them_in(tmp_path: Path) -> None:
    path = tmp_path / "skirt.piece"
    path.write_text(GATHERED, encoding="utf-8")
    drafted = draft_and_check(asked(path))
    text = sewing(drafted)
    assert "Sew two rows of long stitches within the allowance of the panel" in text
    assert text.index("Sew two rows") < text.index("Draw the threads up until the panel is") < text.rindex("Sew: ")


def test_elastic_is_drawn_through_a_casing(tmp_path: Path) -> None:
    path = tmp_path / "skirt.piece"
    skirt = GATHERED[: GATHERED.index("piece waistband")]
    waist = skirt.replace("waist   c to d  straight", "waist   c to d  straight, turned up, gathered 75 %")
    path.write_text(f"{waist}join\n    side   panel.side to panel.side\n", encoding="utf-8")
    text = sewing(draft_and_check(asked(path)))
    assert text.index("is to be a casing: leave a gap") < text.index("Draw elastic, a little narrower")


BANDED = """\
pattern skirt
    title "Skirt"

template half
    points
        a  at 0, 0
        b  at 30 cm, 0
        c  at 30 cm, 60 cm
        d  at 0, 60 cm

    outline
        hem     a to b   straight, turned up
        side    b to c   straight
        top     c to d   straight, elastic 20 cm
        centre  d to a   straight, on fold

    cut 1

piece front is half

piece back is half

piece band
    points
        a  at 0, 0
        b  at 30 cm, 0
        c  at 30 cm, 6 cm
        d  at 0, 6 cm

    outline
        low     a to b   straight
        end     b to c   straight, unjoined
        high    c to d   straight, unjoined
        centre  d to a   straight, on fold

    cut 1

join
    side  front.side to back.side
    top   band.low to back.top
"""


def test_a_seam_over_a_fold_is_sewn_in_one_and_its_elastic_goes_in(tmp_path: Path) -> None:
    path = tmp_path / "banded.piece"
    path.write_text(BANDED)
    text = sewing(draft_and_check(asked(path)))
    assert "the edges marked A level, on the left and on the right." in text
    assert text.index("the edges marked B level") < text.index("Elastic draws in the edge marked B of the back:")
    assert text.count("Elastic draws in") == 1  # that of the front is in no seam


PARTED = """\
pattern panels
    title "Panels"

block half
    points
        a  at 0, 0
        b  at 30 cm, 0
        c  at 30 cm, 60 cm
        d  at 0, 60 cm
        e  on hem: 12 cm from a
        f  on top: 12 cm from d
        g  on hem: 6 cm from a
        h  on top: 6 cm from d

    outline
        hem     a to b   straight, turned up
        side    b to c   straight
        top     c to d   straight
        centre  d to a   straight

    lines
        panel   e to f   straight
        facing  g to h   straight

piece middle from half, between panel and centre
    cut 2 as a pair

piece outer from half, between panel and side
    cut 2 as a pair

piece facing from half, between facing and centre
    outline
        facing  unjoined

    cut 2 as a pair

join
    panel  along half.panel
    edge   facing.centre to middle.centre
"""


def test_neither_a_narrow_panel_nor_a_narrow_facing_is_folded_like_a_band(tmp_path: Path) -> None:
    path = tmp_path / "parted.piece"
    path.write_text(PARTED)
    text = sewing(draft_and_check(asked(path)))
    assert "in half along its length" not in text
    panel, facing = text.index("marked A level, on the left and on the right. Sew:"), text.index("marked B level, on")
    assert "understitch" not in text[panel:facing]
    assert "understitch" in text[facing:]


def test_a_pattern_without_body_measures_has_one_size_and_no_size_chart(tmp_path: Path) -> None:
    path = tmp_path / "skirt.piece"
    path.write_text(GATHERED, encoding="utf-8")
    drafted = draft_and_check(asked(path))
    assert drafted.garment.sizes == ("one size",)
    text = sewing(drafted)
    assert "Body measures" not in text and "How to take the measures" not in text and "Your size" not in text


def test_cloth_that_is_cut_unwashed_is_not_washed_first_and_its_bands_are_worked_out_as_cut(tmp_path: Path) -> None:
    cloth = tmp_path / "jersey.toml"
    lines = ('stretch_across = "60 %"', 'stretch_down = "30 %"', 'shrinkage_across = "3 %"', 'shrinkage_down = "7 %"')
    cloth.write_text("\n".join(lines), encoding="utf-8")
    drafted = draft_and_check(asked("marlpit", sizes=("M",), fabric=cloth, unwashed=True))
    text = sewing(drafted)
    assert "Do not wash this cloth before you cut it" in text and "Wash and dry the cloth" not in text
    assert "they come out even in the wash" in text
    facts = BookletFacts(drafted, (0,), Wording())
    for band in bands(facts.garment, 0):
        cut = length(band.piece.edge("long").segments)
        np.testing.assert_allclose(band_ratio(band, facts) * opening(band, facts), cut)
        assert f"opening × {float(band_ratio(band, facts)[0]):.2f}" in text
    assert text.count("folded in half to a finished ½ in (1.3 cm)") == 2
    german = Wording("de", "cm", {"Marlpit top": "Marlpit-Oberteil"})
    assert BookletFacts(drafted, (0,), german).title == "Marlpit-Oberteil, für ungewaschenen Stoff"
    assert draw_pattern(drafted.to_cut, (0,), wording=german).title == "Marlpit-Oberteil, für ungewaschenen Stoff"


def test_each_band_is_cut_to_measure_by_its_own_share_and_a_pointed_one_by_its_piece() -> None:
    text = sewing(bundled("marlpit", "M"))
    assert text.count("multiply by 0.") == 2
    vee = sewing(bundled("marlpit", "M", neckline="vee"))
    assert vee.count("multiply by 0.") == 1
    assert "cut to the point of the opening" in vee


def test_what_was_estimated_is_said_on_paper() -> None:
    answers = ("bust_girth=101cm", "waist_girth=86cm", "hip_girth=118cm", "stature=168cm")
    text = sewing(draft_and_check(asked("marlpit", answers=answers)))
    assert "Not measured but estimated" in text
    assert "shoulder slope ± 11.2 deg" in text
    assert "Not measured" not in sewing(bundled("marlpit", "M"))


@pytest.fixture(scope="module")
def layered() -> Drafted:
    return draft_and_check(asked(str(HERE / "good" / "two_layers.piece")))


def test_an_edge_is_stitched_down_after_its_seam_and_what_is_caught_is_closed_before(layered: Drafted) -> None:
    names = [step.name for step in sewing_order(layered.garment)]
    assert names[0] == "interfacing"
    assert len(names) == len(set(names)) == 12
    for before, after in (
        ("collar_edge", "stand_top"), ("collar_ends", "stand_top"), ("stand_on", "stand_down"),
        ("cuff_set", "cuff_down"), ("cuff_edge", "cuff_down"), ("stand_top", "stand_down"),
    ):  # fmt: skip
        assert names.index(before) < names.index(after)


def test_the_booklet_names_outside_and_inside(layered: Drafted) -> None:
    text, letter = sewing(layered), seam_letters(layered.garment)
    assert "Lay the outside and the inside of the collar on one another, right sides together" in text
    assert f"The collar goes between the two, its edge marked {letter['stand_top']} level with theirs" in text
    for piece in ("stand", "cuff"):  # what is stitched down later is pressed before the piece is closed
        pressed = f"Press the allowance of the inside of the {piece} to the wrong side along the edge marked"
        closed = text.index(f"Lay the outside and the inside of the {piece} on one another")
        assert text.index(f"{pressed} {letter[f'{piece}_down']}") < closed
    assert f"along the edge marked {letter['cuff_down']} of the inside of the cuff on seam {letter['cuff_set']}" in text
    assert text.count("turn the collar right side out") == 1
    assert "Shell: cut 2 on fold, outside and inside" in text


def test_a_seam_is_pressed_into_a_sleeve_and_away_from_a_hood() -> None:
    tee, hood = sewing(bundled("tidemill", "M")), sewing(bundled("hooded", "M"))
    assert "Turn each sleeve right side out" in tee and "Press the allowances towards the sleeve." in tee
    assert "Turn the hood right side out" in hood and "Press the allowances away from the hood." in hood
    assert "Put each sleeve band round its opening" in hood and "Fold each ring along its length" in hood


def test_a_marked_line_is_called_as_it_is_on_the_piece() -> None:
    drafted = bundled("hooded", "M")
    (mark,) = [mark for mark in drafted.garment.piece("front").marks if mark.name == "pouch_line"]
    assert f"level with the marked line “{mark.words}”" in sewing(drafted)


def test_what_the_steps_take_into_the_hand_is_listed_among_the_tools() -> None:
    skirt, tee = sewing(bundled("ropewalk", "M")), sewing(bundled("tidemill", "M"))
    assert "a zip foot" in skirt and "a needle for sewing by hand" in skirt and "a twin needle" not in skirt
    assert "a zip foot" not in tee and "a needle for sewing by hand" not in tee and "a twin needle" in tee


def test_the_booklet_says_what_is_left_open() -> None:
    text = sewing(draft_and_check(asked(str(HERE / "good" / "left_open.piece"), sizes=["S", "M"])))
    assert "Leave the seam open from the edge marked E on, for 7⅛ in (18 cm), to the notch" in text
    assert "That is on the left only, as it is worn" in text
    assert "Leave the seam open from the edge “hem” on, to the notch" in text
    assert "from the notch at “hole” for 4¾ in (12 cm)" in text


def test_a_faced_slit_is_cut_between_its_two_rows_and_turned_after_the_neckline() -> None:
    steps = sewing(draft_and_check(asked(str(HERE / "good" / "faced_slit.piece"), sizes=["M"])))
    assert "mark its line, C, on the wrong side of both" in steps
    assert steps.index("take two stitches across") < steps.index("Cut through both layers between the two rows")
    assert steps.index("Cut through both layers") < steps.index("5 Neck") < steps.index("Turn the facing")
    assert steps.count("Turn the facing") == 1


def test_a_ring_is_not_said_to_be_divided_in_quarters_by_notches_that_lie_at_the_side_seams() -> None:
    text = sewing(bundled("slipway", "M"))
    assert "quarters" not in text and "Pin the notches of the waistband to the notches, seams and middles" in text
    assert "cut on the fold" not in text[text.index("Pin the notches") :]


def test_a_circle_of_four_panels_is_sewn_by_pairs_and_its_zip_names_the_seam_that_it_goes_into() -> None:
    text = sewing(bundled("roundhouse", "M"))
    assert "Lay two pieces of the skirt on one another, a mirrored pair" in text
    assert "The zip goes in before seam A is sewn: neaten both of its edges first." in text
    assert "so that the edges marked E lie on one another" in text


def test_both_mouths_of_a_pocket_on_the_fold_stay_open_and_a_hood_is_told_its_notches_once() -> None:
    text = sewing(bundled("hooded", "M"))
    assert "1 Pouch pocket, stitched on" in text and "Its hemmed edges stay open, left and right" in text
    neck = text[text.index("Neck – seam") : text.index("9 Hem")]
    assert "notch to notch" in neck and "The notches meet" not in neck


def test_a_flat_waistband_is_pinned_to_the_seams_and_the_fold_that_its_notches_meet() -> None:
    text = sewing(bundled("ropewalk", "M"))
    waist = text[text.index("9 Waist – seam") : text.index("10 Band end")]
    assert "Pin the notches of the waistband to the notches, seams and middles" in waist
    assert "of the opening was cut on the fold, that fold is its middle" in waist and "The notches meet" not in waist


def test_elastic_is_cut_to_its_length_and_laid_into_the_fold_of_its_band_before_that_is_sewn_on() -> None:
    drafted = bundled("slipway", "M")
    names = [(step.name, step.sort) for step in sewing_order(drafted.garment)]
    assert names.index(("band_ends", "join")) < names.index(("waistband", "elastic")) < names.index(("waist", "join"))
    length = float(drafted.garment.piece("waistband").edge("long").elastic[0])  # type: ignore[index]
    text = sewing(drafted)
    assert f"Cut the elastic to this length: {with_signs(Wording().length(length + 20))}. Lap its ends" in text
    assert f"Elastic, with ¾ in (2 cm) to lap its ends: {with_signs(Wording().length(length + 20))}" in text
    assert "for the long" not in text and with_signs(Wording().length(length)) not in text  # one length alone


def test_a_hem_that_runs_on_over_two_edges_has_one_name_and_a_side_seam_under_the_arm_folds_the_sleeve() -> None:
    text = sewing(bundled("breakwater", "M"))
    assert "edge “hem” of the back, right front, left front, left facing and right facing" in text
    raglan = sewing(bundled("netloft", "M"))
    assert "Fold the sleeve lengthwise, right sides together, so that the front comes to lie on the back" in raglan
    side = raglan[raglan.index("4 Side") : raglan.index("5 Band ends")]
    assert "Press the allowances towards the back." in side


def test_cut_lengths_of_a_band_can_be_worked_out_from_the_figures_beside_them() -> None:
    text = sewing(bundled("hooded"), Wording("en", "cm"))
    table = text[text.index("Sleeve band cut length = opening") :]
    ends = float(re.findall(r"\+ ([\d.]+) cm", table)[0])
    rows = [re.findall(rf"{name}(?: cm)?((?: [\d.]+){{7}})", table)[0] for name in ("Opening", "Cut length", "Share")]
    openings, lengths, shares = ([float(figure) for figure in row.split()] for row in rows)
    for around, cut, share in zip(openings, lengths, shares, strict=True):
        rounded = 0.05 * share + 0.0005 * around + 0.05 + 0.05  # of the opening, the share, the ends and the cut length
        assert abs(around * share + ends - cut) <= rounded
