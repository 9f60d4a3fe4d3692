"""The Ropewalk skirt can be cut and sewn from its booklet: all that it takes is named, and each step can be done."""

from __future__ import annotations

import numpy as np
import pytest

from draft.drafting.drafting import Drafted
from draft.paper.booklet import BookletFacts, booklet_pdf
from draft.paper.booklet.order import SewingStep, sewing_order
from draft.paper.drawing.wording import Wording
from draft.seams.bought import bought
from tests.asking import bundled
from tests.paper.reading import page_count, text_of


def _steps(drafted: Drafted) -> list[tuple[str, str]]:
    return [(step.sort, step.name) for step in sewing_order(drafted.garment)]


def _said(drafted: Drafted, language: str = "en") -> str:
    data = booklet_pdf(BookletFacts(drafted, tuple(range(len(drafted.garment.sizes))), Wording(language)))
    return " ".join(" ".join(text_of(data, page) for page in range(page_count(data))).split())


@pytest.fixture(scope="module")
def skirt() -> Drafted:
    return bundled("ropewalk")


def test_each_step_comes_when_it_can_be_done(skirt: Drafted) -> None:
    steps = _steps(skirt)
    for first, then in (
        (("interfacing", "interfacing"), ("join", "waist")),
        (("stay", "stay"), ("join", "waist")),
        (("takeups", "front"), ("join", "side")),
        (("takeups", "back"), ("join", "centre_back")),
        (("join", "centre_back"), ("zip", "centre_back")),
        (("zip", "centre_back"), ("join", "side")),
        (("zip", "centre_back"), ("join", "waist")),
        (("join", "side"), ("join", "waist")),
        (("join", "waist"), ("join", "band_end")),
        (("join", "waist"), ("join", "band_lap")),
        (("join", "band_lap"), ("join", "band_inside")),
        (("join", "band_inside"), ("fastenings", "waistband")),
        (("fastenings", "waistband"), ("hem", "hem")),
        (("hem", "hem"), ("slit", "centre_back")),
    ):
        assert steps.index(first) < steps.index(then), (first, then)


def test_without_a_slit_none_is_hemmed() -> None:
    assert ("slit", "centre_back") not in _steps(bundled("ropewalk", back_slit="no"))


def test_all_that_is_bought_is_named_with_its_figures(skirt: Drafted) -> None:
    found = {line.name: line for line in bought(skirt.garment)}
    assert list(found) == ["zip", "button", "thread"]
    opening = next(join for join in skirt.garment.joins if join.name == "centre_back").openings
    zip_opening = next(one for one in opening if one.use == "lapped zip")
    assert found["zip"].length is not None and np.all(found["zip"].length >= zip_opening.length - 0.5)
    assert found["button"].count is not None and np.all(found["button"].count == 1)
    text = _said(skirt)
    assert "1 plain zip with a closed end, 7⅛ in (18 cm) long" in text
    assert "1 button: 18 mm, flat" in text
    assert "Interfacing: woven, ironed on" in text and "interfacing: cut 1" in text.lower()


@pytest.mark.parametrize(("asked", "sold"), [("17 cm", 180), ("18 cm", 180), ("18.5 cm", 200), ("12.5 cm", 150)])
def test_a_zip_is_of_a_length_that_is_sold(asked: str, sold: float) -> None:
    found = {line.name: line for line in bought(bundled("ropewalk", "M", zip_length=asked).garment)}
    assert found["zip"].length is not None and float(found["zip"].length[0]) == sold


def test_the_opening_stays_open_and_the_band_is_closed(skirt: Drafted) -> None:
    text = _said(skirt)
    assert "Leave the seam open from the edge marked C on, for 7⅛ in (18 cm), to the notch" in text
    assert "Leave the seam open from the edge “hem” on, for 4¾ in (12 cm), to the notch" in text
    assert "Press the waistband in half along its length" in text
    assert "becomes a ring" not in text and "quarters" not in text
    lap = next(join for join in skirt.garment.joins if join.name == "band_lap")
    assert {part.edge for part in lap.first} == {"lap", "lap_end"}


def test_the_button_lies_under_its_hole(skirt: Drafted) -> None:
    """Both lie as far from the centre back, one on the lap beyond it, the other on the end over that."""
    band = skirt.garment.piece("waistband")
    marks = {mark.name: mark.points[:, 0] for mark in band.marks}
    start, end = band.edge("long").segments[:, 0, 0], band.edge("long").segments[:, -1, 3]
    np.testing.assert_allclose(start[:, 0] - marks["button"][:, 0], end[:, 0] - marks["hole"][:, 0])
    np.testing.assert_allclose(marks["button"][:, 1], marks["hole"][:, 1])


def test_numbers_of_stitches_stand_in_their_table_alone(skirt: Drafted) -> None:
    text = _said(skirt)
    assert text.count("301") == 3 and "Sew: lockstitch; neaten the edges." in text
    assert "301" not in text[text.index("Darts: front") :]


def test_every_seam_has_a_letter_beside_its_step(skirt: Drafted) -> None:
    text = _said(skirt)
    for seam in ("Centre back – seam A", "Side – seam B", "Waist – seam C"):
        assert seam in text
    steps: list[SewingStep] = [step for step in sewing_order(skirt.garment) if step.sort == "join"]
    assert [step.name for step in steps] == ["centre_back", "side", "waist", "band_end", "band_lap", "band_inside"]
