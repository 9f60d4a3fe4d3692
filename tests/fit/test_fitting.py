"""The report of a fit, its tables and its drawing."""

from __future__ import annotations

import csv
import io

import numpy as np
import pytest

from draft.answers.fit import fit_files, fit_report
from draft.answers.tables import table_files
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.fit.room_words import FRONT_AND_BACK, NOT_YOU
from draft.form import Form, form_of
from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.drawing.font import text_width
from draft.paper.pictures.fit_drawing import fit_drawing, levels_of
from draft.paper.pictures.form_views import FORM, LEGS, ROOM, TIGHT
from tests.asking import asked, bundled
from tests.fit.made_up import garment, measured

EASES = {"bust": 6.0, "waist": 15.0, "hip": 5.0}


@pytest.fixture(scope="module")
def marlpit() -> Drafted:
    return bundled("marlpit")


def _rows(drafted: Drafted, name: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(table_files(drafted.garment)[f"tables/{name}.csv"].decode())))


def test_ease_is_what_the_style_declares_within_a_millimetre(marlpit: Drafted) -> None:
    for finished in marlpit.garment.finished:
        if finished.name in EASES:
            assert finished.over is not None
            ease = finished.values - finished.over[1]
            assert np.all(np.abs(ease - 10 * EASES[finished.name]) < 1.0), finished.name


def test_ease_is_tabled_by_body_garment_and_difference(marlpit: Drafted) -> None:
    head, *rows = _rows(marlpit, "ease")
    assert head == ["measurement", "over", "figure", "unit", "XS", "S", "M", "L", "XL", "2XL", "3XL"]
    told = {(r[0], r[2], r[3]): [float(x) for x in r[4:]] for r in rows}
    for level, ease in EASES.items():
        assert told[level, "ease", "cm"] == [ease] * 7
        body, mine = told[level, "body", "in"], told[level, "garment", "in"]
        assert np.allclose(np.subtract(mine, body), told[level, "ease", "in"], atol=0.011)


def test_the_stretch_is_tabled_with_its_reasons(marlpit: Drafted) -> None:
    head, *rows = _rows(marlpit, "stretch")
    assert head[3:] == [f"{size} %" for size in marlpit.garment.sizes]
    least = {row[1]: row for row in rows if row[0] == "least stretch of the cloth"}
    assert least["across"][2] == "40.0" and least["down"][2] == "20.0"
    reasons = [row for row in rows if row[1] == "across" and row[0] != "least stretch of the cloth"]
    assert float(least["across"][3]) == max(float(row[3]) for row in reasons)


def test_a_report_for_one_and_for_all(marlpit: Drafted) -> None:
    assert "bust       6 cm   6 cm" in fit_report(marlpit.garment)
    one = fit_report(bundled("marlpit", "M", neckline="crew").garment)
    assert "bust       94 cm   100 cm   50 cm  6 cm    2 3/8 in  semi-fitted" in one
    assert "at least: the neckband, to pass over the head and hair" in one
    assert "along its length by nothing" in one


def test_a_drawing_for_each_body(marlpit: Drafted) -> None:
    files = fit_files(marlpit)
    assert set(files) == {f"fit/{size}.svg" for size in marlpit.garment.sizes}


def _form(drafted: Drafted) -> Form:
    found = form_of(drafted.bodies, drafted.plan.wearers)
    assert found is not None
    return found


def _words(drawing: Drawing) -> str:
    return " ".join(item.text for item in drawing.items() if isinstance(item, Label))


@pytest.mark.parametrize("name", ["marlpit", "ropewalk", "boatyard", "netloft", "slipway"])
def test_all_of_it_lies_inside_the_sheet(name: str) -> None:
    drafted = bundled(name)
    for body in (0, len(drafted.bodies) - 1):
        drawing = fit_drawing(drafted.garment, _form(drafted), body)
        for item in drawing.items():
            if isinstance(item, Path):
                (left, top), (right, bottom) = item.box()
                assert left > 0 and top > 0 and right < drawing.width and bottom < drawing.height
            else:
                assert item.x >= 0 and item.y < drawing.height
                if item.anchor == "start":
                    assert item.x + text_width(item.text, item.size, item.bold) < drawing.width


def test_both_girths_and_the_ease_stand_beside_the_form(marlpit: Drafted) -> None:
    words = _words(fit_drawing(marlpit.garment, _form(marlpit), 2))
    assert "6 cm ease, semi-fitted" in words and "body 94 cm" in words and "garment 100 cm, flat 50 cm" in words


def test_every_picture_says_what_it_cannot_know(marlpit: Drafted) -> None:
    words = _words(fit_drawing(marlpit.garment, _form(marlpit), 2))
    assert NOT_YOU in words and FRONT_AND_BACK in words and "estimated on the form: under bust girth" in words.lower()
    assert FRONT_AND_BACK not in _words(fit_drawing(bundled("ropewalk").garment, _form(bundled("ropewalk")), 2))


def test_what_was_estimated_for_drafting_is_not_said_to_be_measured() -> None:
    answers = ["bust_girth=112 cm", "waist_girth=98 cm", "hip_girth=110 cm", "stature=168 cm"]
    drawn = fit_files(draft_and_check(asked("tidemill", answers=answers)))
    (picture,) = drawn.values()
    assert b"stimated on the form: under bust girth, back waist length, shoulder slope" in picture


def test_strokes_are_as_many_as_tight_levels_and_the_heavier_the_tighter() -> None:
    tight = bundled("marlpit", "M", hip_ease="-6 cm")
    drawing = fit_drawing(tight.garment, _form(tight), 0)
    strokes = [i for i in drawing.items() if isinstance(i, Path) and i.stroke and i.stroke.colour == TIGHT]
    across = [i for i in strokes if len(i.runs[0]) == 1 and np.ptp(i.box()[:, 0]) > 20]
    widths = [i.stroke.width for i in sorted(across, key=lambda i: -float(i.box()[1, 1])) if i.stroke]
    assert len(widths) >= 10 and widths[0] > 2 * widths[-2]  # in front and from the side, from the hem up
    assert "What is caught at the hip rides up and lies in folds at the waist." in _words(drawing)


def test_it_reads_without_colour() -> None:
    def grey(colour: str) -> float:
        red, green, blue = (int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5))
        return 0.299 * red + 0.587 * green + 0.114 * blue  # luma of ITU-R BT.601

    shades = sorted(grey(colour) for colour in (FORM, ROOM, TIGHT))
    assert min(np.diff(shades)) > 0.1 and grey(LEGS) > grey(FORM)


def test_a_body_without_a_form_is_told_in_words() -> None:
    tight = garment(measured("bust", [900.0], over=[940.0]), names=("M",))
    (level,) = levels_of(tight, 0)
    assert level.sits == "stretched" and level.tape == "bust_girth" and level.at == "bust"
    words = _words(fit_drawing(tight, None))
    assert "Bust: 4 cm less than the body, and the cloth does not stretch: it does not go round." in words
    assert "No form is drawn" in words


def test_what_no_cloth_could_do_is_said_to_be_so() -> None:
    tight = garment(measured("bust", [400.0], over=[940.0]), names=("M",))
    assert "across by more than any cloth does: the bust, to go over the bust girth" in fit_report(tight)


def test_the_stretch_is_reckoned_before_the_readers_eyes() -> None:
    jersey = {"stretch_across": 0.6}
    band = garment(measured("neckband", [400.0], passing=[576.0]), cloth=jersey, names=("M",))
    assert "from 40 cm to 57.6 cm is 44 % more: what is put on or sewn may use all of it" in fit_report(band)
    snug = garment(measured("bust", [940.0], over=[1000.0]), cloth=jersey, names=("M",))
    told = fit_report(snug)  # 100 / 94 * 1.16 - 1
    assert "by 23.4 % at least" in told and "is 6.4 % more: times 1.16, for 16 % are left for moving (Kirk" in told
    close = garment(measured("bust", [700.0], over=[1000.0]), cloth=jersey, names=("M",))
    assert "is 42.9 % more: twice that, for while it is worn half of the stretch" in fit_report(close)
    assert "from 70 cm to 100 cm  42.9 %  30 %     60 %" in fit_report(close, details=True)


def test_no_cloth_stretches_to_more_than_three_and_a_half_times_its_width() -> None:
    band, tight = (garment(measured("cuff", [100.0], passing=[girth]), names=("M",)) for girth in (340.0, 360.0))
    assert "across by 240 % at least: the cuff, to pass over the head" in fit_report(band)
    assert "across by more than any cloth does: the cuff, to pass over the head" in fit_report(tight)
