"""Whom the sizes of a chart serve, and a chart that serves most: against known answers and real women."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.resources import folder
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.chart_proposed import proposed
from draft.bodies.chart_served import GIRTHS, HALF, WHOLE, nearest_size, served, steps_of, usual_at
from draft.bodies.population import POPULATIONS, people_of
from draft.bodies.wearers import MEN
from tests.outside.drawn_women import drawn_women
from tests.outside.women import real_women

CHART = read_chart(folder("pieces") / "women.csv")


def _bodies(*rows: tuple[float, float, float]) -> Bodies:
    columns = np.array(rows, dtype=float).T * 10
    return Bodies(tuple(map(str, range(len(rows)))), dict(zip(GIRTHS, columns, strict=True)))


def test_a_step_is_the_smaller_of_those_beside_a_size() -> None:
    assert steps_of(np.array([78.0, 86.0, 96.0, 101.0])).tolist() == [8, 8, 5, 5]
    assert steps_of(np.array([78.0])).tolist() == [0]


def test_one_size_must_be_near_at_every_girth() -> None:
    sizes = _bodies((86, 69, 95), (94, 77, 101))
    all_m, bust_s_hip_m, far = (94, 77, 101), (85.5, 73, 102), (94, 77, 112)
    people = _bodies(all_m, bust_s_hip_m, far)
    assert served(sizes, people, GIRTHS, HALF).tolist() == [True, False, False]
    assert served(sizes, people, GIRTHS[:2], WHOLE).tolist() == [True, True, True]
    assert served(sizes, people, GIRTHS, WHOLE).tolist() == [True, False, False]
    assert nearest_size(sizes.values["bust_girth"], people.values["bust_girth"]).tolist() == [1, 0, 1]


def test_what_is_not_measured_is_near_nothing() -> None:
    assert not served(CHART, _bodies((94, float("nan"), 101)), GIRTHS, WHOLE).any()


def test_what_is_usual_at_a_bust_is_the_line_through_all() -> None:
    lead = np.array([80.0, 90.0, 100.0, 110.0])
    middle, spread = usual_at(lead, 2 * lead + 7, np.array([85.0, 120.0]))
    assert middle == pytest.approx([177, 247])
    assert spread == pytest.approx([0, 0], abs=1e-9)


@pytest.mark.parametrize("name", POPULATIONS)
def test_the_people_drawn_have_the_figures_of_their_survey(name: str) -> None:
    people, of = people_of(name, 20_000), POPULATIONS[name]
    drawn = np.array(list(people.values.values())) / 10
    whole = np.cov(drawn)
    assert drawn.mean(axis=1) == pytest.approx(of.means, rel=0.005)
    for row, some in enumerate(of.covariances):
        assert whole[row, : row + 1] == pytest.approx(some, rel=0.06, abs=1.5)


def test_the_same_people_are_drawn_each_time() -> None:
    assert people_of("women").values["hip_girth"].tolist() == people_of("women").values["hip_girth"].tolist()
    with pytest.raises(KeyError):
        people_of("children")


def test_drawn_women_and_real_ones_are_served_alike() -> None:
    """260 women of Heinz et al., Journal of Statistics Education 11(2), 2003: another study than the figures are of."""
    real, ours = real_women(), people_of("women")
    for girths in (GIRTHS[1:], GIRTHS):
        shares = [float(served(CHART, people, girths, WHOLE).mean()) for people in (real, ours)]
        assert abs(shares[0] - shares[1]) < 0.15


def test_the_chart_that_is_proposed_serves_more_than_our_own_by_the_same_count() -> None:
    people = people_of("women", 600)
    found = proposed(people, CHART.names, within=60.0)
    own = np.logical_and.reduce(
        [np.abs(people.values[g][:, None] - CHART.values[g]) <= 60.0 + 1e-6 for g in GIRTHS]
    ).any(axis=1)
    assert found.share > float(own.mean())
    for girth in GIRTHS:
        assert (np.diff(found.chart.values[girth]) > 0).all()
        assert np.allclose(found.chart.values[girth] % 5.0, 0.0)


def test_more_sizes_serve_no_fewer() -> None:
    people = people_of("women", 400)
    shares = [proposed(people, [str(k) for k in range(count)]).share for count in (1, 2, 4, 7)]
    assert shares == sorted(shares)


def test_the_ends_that_are_asked_for_are_kept() -> None:
    found = proposed(people_of("men", 300), ["S", "M", "L", "XL"], wearers=MEN, ends=(900.0, 1300.0))
    bust = found.chart.values["bust_girth"]
    assert (bust[0], bust[-1]) == (900.0, 1300.0)


def test_a_chart_needs_people_and_names() -> None:
    for people, names in ((Bodies((), {}), ["M"]), (people_of("women", 30), [])):
        with pytest.raises(ValueError):
            proposed(people, names)


def test_women_of_other_draws_are_served_as_well() -> None:
    """Held to people whom the chart was not made for: other draws, with a normal tail."""
    found = proposed(people_of("women"), ["1", "2", "3", "4", "5"])
    others = drawn_women(1000, seed=7)
    near = [np.abs(others.values[g][:, None] - found.chart.values[g]) <= 60.0 for g in GIRTHS]
    assert abs(float(np.logical_and.reduce(near).any(axis=1).mean()) - found.share) < 0.06
