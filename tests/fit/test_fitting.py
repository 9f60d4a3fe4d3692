"""The report of a fit, its tables and its drawing."""

from __future__ import annotations

import csv
import io

import numpy as np
import pytest

from draft.answers.fit import fit_files, fit_report
from draft.answers.tables import table_files
from draft.drafting.drafting import Drafted
from draft.paper.drawing.drawing import Label, Path
from draft.paper.pictures.fit_drawing import LOOKS, fit_drawing, levels_of
from tests.asking import bundled
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
    assert "bust       94 cm   100 cm   50 cm  6 cm   2 3/8 in  semi-fitted" in one
    assert "at least: the neckband, to pass over the head and hair" in one
    assert "along its length by nothing" in one


def test_a_drawing_for_each_body(marlpit: Drafted) -> None:
    files = fit_files(marlpit.garment)
    assert set(files) == {f"fit/{size}.svg" for size in marlpit.garment.sizes}


def test_bars_are_to_one_scale_and_inside_the_sheet(marlpit: Drafted) -> None:
    drawing = fit_drawing(marlpit.garment, 2)
    words = [item.text for item in drawing.items() if isinstance(item, Label)]
    assert "6 cm ease, semi-fitted" in words and "body 94 cm" in words and "garment 100 cm, flat 50 cm" in words
    bars = [i for i in drawing.items() if isinstance(i, Path) and i.fill]
    widths = [float(np.ptp(bar.box()[:, 0])) for bar in bars]
    bodies = [level.body for level in levels_of(marlpit.garment, 2)]
    assert np.allclose(np.array(widths) / widths[0], np.array(bodies) / bodies[0], rtol=1e-3)
    for item in drawing.items():
        if isinstance(item, Path):
            (left, top), (right, bottom) = item.box()
            assert left > 0 and top > 0 and right < drawing.width and bottom < drawing.height


def test_how_a_level_sits_is_told_without_colour_too() -> None:
    assert len({stroke.dash for stroke in LOOKS.values()}) == len(LOOKS)
    tight = garment(measured("bust", [900.0], over=[940.0]), names=("M",))
    (level,) = levels_of(tight, 0)
    assert level.sits == "stretched" and level.tape == "bust_girth"
    words = [item.text for item in fit_drawing(tight).items() if isinstance(item, Label)]
    assert "4 cm less than the body, stretched" in words


def test_what_no_cloth_could_do_is_said_to_be_so() -> None:
    tight = garment(measured("bust", [400.0], over=[940.0]), names=("M",))
    assert "across by more than any cloth does: the bust, to go over the bust girth" in fit_report(tight)


def test_no_cloth_stretches_to_more_than_three_and_a_half_times_its_width() -> None:
    band, tight = (garment(measured("cuff", [100.0], passing=[girth]), names=("M",)) for girth in (340.0, 360.0))
    assert "across by 240 % at least: the cuff, to pass over the head" in fit_report(band)
    assert "across by more than any cloth does: the cuff, to pass over the head" in fit_report(tight)
