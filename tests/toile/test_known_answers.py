"""Cloths whose answers mechanics knows: tube, cone, hanging sheet, bias strip, strip over an edge, rope round a post.

Theory: T/r of a thin tube under tension T, w L^4 / 8 B of a cantilever that bends little (Euler and Bernoulli), and
e^(mu pi) of a rope half round a post (Euler and Eytelwein), all from any textbook of mechanics, from memory.
How near the tube and the cone are to come was settled for edges of 12 mm, which take long and are slow tests; on the
20 mm that garments are looked at with, the same checks are held twice as widely.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.toile.contact import touch
from draft.toile.membrane import stiffness_of
from draft.toile.newton import Pace, Question, Springs, settle
from draft.toile.sewn import Sewn
from draft.toile.sewn_cloth import GRAVITY, SewnCloth, cloth_with
from tests.toile.made_cloth import (
    ACROSS,
    KNIT,
    WOVEN,
    Nothing,
    Rod,
    Round,
    at_rest,
    cylinder,
    grown,
    holding,
    laid_flat,
    middles,
    rectangle,
    sewn_of,
    sheet,
    tube,
)

WEIGHT, BENDING = 2e-7, 2e-3
TOUCH = 2e-2
BIAS = np.array([np.sqrt(0.5), np.sqrt(0.5)])


def averages(sewn: Sewn, cloth: SewnCloth, x: Floats, low: float, high: float) -> tuple[float, float]:
    """Strain across and along between two heights."""
    across, along, _ = cloth.membrane.strain(x)
    z = middles(sewn, x)[:, 2]
    there = (z > low) & (z < high)
    return tuple(float(np.average(strain[there], weights=cloth.membrane.areas[there])) for strain in (across, along))  # type: ignore[return-value]


@pytest.mark.parametrize(
    ("ease", "edge_length", "high", "within"),
    [
        (-0.10, 20.0, 240.0, 0.02),
        pytest.param(-0.10, 12.0, 400.0, 0.01, marks=pytest.mark.slow),
        pytest.param(-0.25, 12.0, 400.0, 0.01, marks=pytest.mark.slow),
    ],
)
def test_tight_tube(ease: float, edge_length: float, high: float, within: float) -> None:
    """Hoop strain is the cylinder's over the tube's, what it takes along its length the coupling's, pressure T / r."""
    radius, told = 140.0, 1 / (1 + ease) - 1
    hoop, wale, pressure = on_cylinder(radius, ease, edge_length, high, KNIT)
    assert hoop == pytest.approx(told, rel=within)
    assert wale == pytest.approx(-KNIT[2] / KNIT[1] * told, abs=0.001)
    tension = (KNIT[0] - KNIT[2] ** 2 / KNIT[1]) * told / (1 + wale)
    assert pressure == pytest.approx(tension / radius, rel=0.02)


def on_cylinder(
    radius: float, ease: float, edge_length: float, high: float, stiffness: Floats
) -> tuple[float, float, float]:
    """Strain round a tube on a cylinder and along it, and the pressure between both in N/mm2, all in its middle."""
    sewn = tube(2 * np.pi * radius * (1 + ease), high, edge_length)
    cloth, form = cloth_with(sewn, stiffness, WEIGHT, BENDING), cylinder(radius)
    x = grown(cloth, laid_flat(sewn), form, lambda field: Question(field, weight=0.0, stiffness=TOUCH, outside=0.0))
    hoop, wale = averages(sewn, cloth, x, 0.3 * high, 0.7 * high)
    felt = touch(x, cloth.areas, form, TOUCH, 0.0, None)
    there = np.abs(x[:, 2] - high / 2) < 0.2 * high
    pressure = np.average(TOUCH * felt.depth[there], weights=cloth.areas[there]) / (1 + hoop) / (1 + wale)
    return hoop, wale, float(pressure)


HAND_TESTS = [
    # stretched by hand across and along; stretched round a cylinder of 14 cm by; pressure in Pa by Laplace
    (0.40, 0.20, 0.05, 67.56),
    (0.40, 0.20, 0.10, 136.34),
    (0.40, 0.20, 0.20, 277.67),
    (0.25, 0.15, 0.10, 218.52),
    (0.60, 0.60, 0.10, 91.58),
    (0.80, 0.40, 0.20, 138.84),
]


@pytest.mark.parametrize("row", [HAND_TESTS[1], *(pytest.param(row, marks=pytest.mark.slow) for row in HAND_TESTS)])
def test_tubes_by_their_hand_tests(row: tuple[float, float, float, float]) -> None:
    """A table worked out, not measured: a thin orthotropic tube on a rigid cylinder by Hooke and Laplace.

    A hand pulls 0.08 N for each mm of width, the coupling is a quarter of the geometric mean: so the tension is
    0.9375 * 0.08 * e / across for a stretch of e, and the tube shortens by e / 4 * sqrt(down / across).
    """
    across, down, stretched, told = row
    hoop, wale, pressure = on_cylinder(140.0, 1 / (1 + stretched) - 1, 20.0, 240.0, stiffness_of(across, down))
    shortens = stretched / 4 * np.sqrt(down / across)
    assert told == pytest.approx(1e6 * 0.9375 * 0.08 * stretched / across / 140.0 / (1 - shortens), rel=1e-3)
    assert hoop == pytest.approx(stretched, rel=0.02)
    assert wale == pytest.approx(-shortens, abs=0.001)
    assert 1e6 * pressure == pytest.approx(told, rel=0.03)


@pytest.mark.parametrize("edge_length", [20.0, pytest.param(12.0, marks=pytest.mark.slow)])
def test_ring_on_a_cone(edge_length: float) -> None:
    """Held at its lower edge each level is as wide as the cone there; let go, it climbs to where it is slack."""

    def radius(z: Floats) -> Floats:
        return 120.0 + 0.15 * (400.0 - z)

    form = Round(radius, -0.15)
    sewn = tube(2 * np.pi * 140.0, 200.0, edge_length)
    cloth = cloth_with(sewn, KNIT, WEIGHT, BENDING)
    low = np.unique(sewn.merged[sewn.rest[:, 1] < 1e-6])
    held = Springs(low, np.tile([0.0, 0.0, 50.0], (len(low), 1)), np.tile([0.0, 0.0, 2.0], (len(low), 1)))
    x = grown(
        cloth,
        laid_flat(sewn, up=50.0),
        form,
        lambda field: Question(field, [held], weight=0.0, stiffness=TOUCH, outside=0.0),
    )
    z = middles(sewn, x)[:, 2]
    there = (z > 80) & (z < 200) & (radius(z) > 143)
    off = cloth.membrane.strain(x)[0][there] - (radius(z[there]) / 140.0 - 1)
    assert np.abs(off).max() < (0.005 if edge_length < 15 else 0.010)
    assert abs(off.mean()) < 0.002
    x = at_rest(cloth, x, Question(form, weight=0.0, stiffness=TOUCH, outside=0.0))
    assert x[low, 2].mean() == pytest.approx(400 - 20 / 0.15, abs=4.0)
    assert np.percentile(cloth.membrane.strain(x)[0], 99) < 0.003


def on_rollers(sewn: Sewn, cloth: SewnCloth, top: float) -> SewnCloth:
    """Held level at its upper edge, free to draw in along it, and flat."""
    high = np.unique(sewn.merged[sewn.rest[:, 1] > top - 1e-6])
    held = cloth.held.copy()
    held[high, 2] = held[:, 1] = True
    held[high[0], 0] = True
    return replace(cloth, held=held)


def hung(sewn: Sewn, cloth: SewnCloth) -> Floats:
    x = np.zeros((sewn.count, 3))
    x[sewn.merged, 0], x[sewn.merged, 2] = sewn.rest.T
    question = Question(Nothing())
    for drag in (1e-6, 1e-8, 1e-10):
        x = settle(cloth, x, question, Pace(drag, 60, 1e-3, 1e-3, 2000)).x
    return x


def test_hanging_sheet() -> None:
    """Strain grows from the hem up with the weight below; the hem drops by w L^2 / 2 E: here a fifth of its length."""
    sewn = sheet(200.0, 600.0, 20.0)
    weight = 2e-5
    cloth = on_rollers(sewn, cloth_with(sewn, KNIT, weight, BENDING), 600.0)
    x = hung(sewn, cloth)
    stiff = KNIT[1] - KNIT[2] ** 2 / KNIT[0]
    per_mm = weight * GRAVITY / stiff
    hem = np.unique(sewn.merged[sewn.rest[:, 1] < 1e-6])
    assert -x[hem, 2].mean() == pytest.approx(per_mm * 600.0**2 / 2, rel=0.02)
    along = cloth.membrane.strain(x)[1]
    told = per_mm * sewn.rest[sewn.triangles][:, :, 1].mean(axis=1)
    assert np.abs(along - told).max() < 0.02 * told.max()


def test_strip_on_the_bias() -> None:
    """Cut at 45 degrees and hung, it gives by the compliance of the sheet and its shear.

    Shear is told by the product of both units, strain by their lengths: to first order what engineers call shear.
    """
    sewn = sheet(120.0, 600.0, 20.0, BIAS)
    weight = 5e-7
    cloth = on_rollers(sewn, cloth_with(sewn, KNIT, weight, BENDING), 600.0)
    x = hung(sewn, cloth)
    c, d, both, shear = KNIT
    gives = (d + c - 2 * both) / (c * d - both**2) / 4 + 1 / shear / 4
    z = x[:, 2]
    rest = np.zeros(sewn.count)
    rest[sewn.merged] = sewn.rest[:, 1]
    there = (rest > 40) & (rest < 400)
    slope = np.polyfit(rest[there], z[there] - rest[there], 2)[0] * 2
    assert slope == pytest.approx(weight * GRAVITY * gives, rel=0.02)


UNEVEN = np.array([4.0, 0.8, 0.3, 0.5])
"""N/mm: five times as stiff across as down."""


def over_an_edge(
    edge_length: float, wide: float, way: Floats, stiffness: Floats, long: float = 80.0
) -> tuple[SewnCloth, Floats]:
    """A strip laid across a straight edge, along a seam: both of its ends hang down as cantilevers do."""
    strips = [rectangle(-long, 0.0, 0.0, wide, edge_length), rectangle(0.0, long, 0.0, wide, edge_length)]
    sewn = sewn_of(strips, [(0, "right", 1, "left")], "", way)
    x = np.zeros((sewn.count, 3))
    x[sewn.merged, :2] = sewn.rest
    return cloth_with(sewn, stiffness, 2e-11, BENDING), x


@pytest.mark.parametrize(
    ("edge_length", "wide", "way", "stiffness"),
    [
        (10.0, 60.0, ACROSS, WOVEN),
        (8.0, 60.0, ACROSS, WOVEN),
        (7.0, 25.0, ACROSS, WOVEN),
        (8.0, 60.0, BIAS, WOVEN),
        (8.0, 60.0, ACROSS, UNEVEN),
        (10.0, 60.0, BIAS, UNEVEN),
    ],
)
def test_cantilever(edge_length: float, wide: float, way: Floats, stiffness: Floats) -> None:
    """Small bends: the tip hangs w L^4 / 8 B lower, on the meshes that garments have, whichever way they stretch."""
    cloth, x = over_an_edge(edge_length, wide, way, stiffness)
    cloth = holding(cloth, np.flatnonzero(np.abs(x[:, 0]) < 1e-6))
    found = settle(cloth, x, Question(Nothing()), Pace(1e-14, 30, 1e-5, 1e-4, 5000)).x
    tips = np.abs(np.abs(x[:, 0]) - 80.0) < 1e-6
    told = 2e-11 * GRAVITY * 80.0**4 / 8 / BENDING
    assert -found[tips, 2].mean() == pytest.approx(told, rel=0.05)


@pytest.mark.parametrize("coefficient", [0.3, 0.15])
def test_rope_round_a_post(coefficient: float) -> None:
    """A strip half round a rod, more and more weight on one end: the held end feels it divided by e^(mu pi)."""
    radius, free, wide = 60.0, 100.0, 20.0
    long = np.pi * radius + 2 * free
    sewn = sheet(long, wide, 10.0)
    cloth = cloth_with(sewn, WOVEN, 1e-12, 1e-3)
    along = np.zeros((sewn.count, 2))
    along[sewn.merged] = sewn.rest
    s = along[:, 0] - long / 2
    turn = np.clip(s / radius, -np.pi / 2, np.pi / 2)
    x = np.stack(
        [radius * np.sin(turn), along[:, 1], radius * np.cos(turn) - np.maximum(np.abs(s) - np.pi * radius / 2, 0.0)],
        axis=1,
    )
    cloth = holding(cloth, np.flatnonzero(s < s.min() + 1e-6))
    end = np.flatnonzero(s > s.max() - 1e-6)
    rod, loads = Rod(radius), np.zeros_like(x)
    pace = Pace(1e-8, 12, 1e-3, 1e-2, 500)
    loads[end, 2] = -0.02 / len(end)
    x = settle(cloth, x, Question(rod, weight=0.0, loads=loads, stiffness=0.5, outside=0.0), pace).x
    start = x
    for share in np.append(np.linspace(0.1, 1.0, 10), np.ones(6)):
        loads[end, 2] = -3.0 * share / len(end)
        asked = Question(rod, (), coefficient, start, 0.0, loads, 0.5, 0.0)
        x = settle(cloth, x, asked, pace).x
    tension = WOVEN[0] * cloth.membrane.strain(x)[0] * wide
    at = (sewn.rest[sewn.triangles][:, :, 0].mean(axis=1)) - long / 2
    ends = [tension[np.abs(side * at - long / 2 + free / 2) < 30].mean() for side in (1, -1)]
    assert ends[0] == pytest.approx(3.0, rel=0.02)
    assert np.log(ends[0] / ends[1]) / np.pi == pytest.approx(coefficient, rel=0.02)
