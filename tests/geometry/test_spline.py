"""Hobby's splines: against MetaPost's numbers, and for what a drafter relies on whatever the points."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from draft.geometry import cubic
from draft.geometry.spline import hobby

MANUAL = [(0, 0), (60, 40), (40, 90), (10, 70), (30, 50)]
BEND = [(0, 0), (50, 20), (90, -30)]
WAVE = [(0, 0), (50, 20), (90, -30), (140, -20)]

# name: knots, directions, tension, curl, closed, and the controls that MetaPost 2.02 (TeX Live 2022) computed
# with `mpost -numbersystem=double`, to the places kept here. Run afresh below where mpost is installed.
METAPOST = {
    "open": (
        MANUAL, {}, 1, 1, False,
        [(26.764622196, -1.845435484), (51.409393448, 14.584412018), (67.098751579, 61.001886679),
         (59.762534355, 84.575180017), (25.357136355, 94.019469259), (10.480636330, 84.502202304),
         (9.628945783, 58.804210207), (18.804210207, 49.628945783)],
    ),
    "closed": (
        MANUAL, {}, 1, 1, True,
        [(5.187560758, -26.835293713), (60.360737358, -18.400365485), (59.877146134, 59.889014873),
         (57.338958537, 81.642026026), (22.399864282, 98.483870353), (4.724032459, 84.463693783),
         (13.386367056, 60.716512991), (26.355912665, 59.135106432), (39.194088390, 26.951985979),
         (-4.105547436, 21.238030057)],
    ),
    "given inside and at both ends": (
        [(0, 0), (100, 40), (80, 120), (0, 150)], {0: (1, 0), 1: (1, 2), 3: (-1, 0)}, 1, 1, False,
        [(39.663261091, 0), (82.801992454, 5.603984907), (113.473696667, 66.947393333),
         (102.429260220, 98.738647126), (58.574443067, 140.309913123), (29.543291507, 150)],
    ),
    "given at one end": (
        BEND, {0: (0, 1)}, 1, 1, False,
        [(0, 20.762840814), (26.331223248, 30.466570656), (70.687789030, 10.851652035),
         (85.616004456, -7.808617246)],
    ),
    "no curl": (
        WAVE, {}, 1, 0, False,
        [(14.457540996, 14.050927591), (32.194879039, 27.543700262), (70.863910350, 11.160347277),
         (70.377197953, -19.451438544), (105.948645181, -38.573457727), (124.140013267, -29.565616065)],
    ),
    "double curl": (
        WAVE, {}, 1, 2, False,
        [(-0.432349600, 22.454242845), (27.823565477, 34.756272090), (68.156964762, 7.918296240),
         (72.723346187, -16.838880155), (108.140909000, -43.819497689), (133.740609392, -39.347021902)],
    ),
    "tight": (
        WAVE, {}, 1.5, 1, False,
        [(5.807683596, 12.590775425), (37.111142620, 25.112159035), (64.138387335, 14.392234904),
         (76.580512552, -23.399527655), (101.339456233, -35.577393888), (131.677961126, -29.509692909)],
    ),
    "slack, given at the ends": (
        BEND, {0: (0, 1), 2: (0, -1)}, 0.8, 1, False,
        [(0, 26.233038002), (20.681446286, 33.956925528), (76.500581633, 7.384553545), (90, -1.364950898)],
    ),
    "coincident knots": (
        [(0, 0), (50, 20), (50, 20), (90, -30), (140, -20)], {}, 1, 1, False,
        [(16.666666667, 6.666666667), (33.333333333, 13.333333333), (50, 20), (50, 20),
         (51.547215777, -3.398612078), (67.511718510, -23.354240493), (107.296156860, -35.111377627),
         (126.000231217, -31.370562755)],
    ),
    "closed, one given": (
        [(0, 0), (50, 20), (60, -40)], {1: (1, 0)}, 1, 1, True,
        [(7.675545563, 17.740385430), (29.867796334, 20), (77.329115213, 20), (88.701607458, -19.956052852),
         (26.306757382, -63.529886794), (-13.659052609, -31.569984950)],
    ),
    "one segment, given at its start": (
        [(0, 0), (100, 0)], {0: (1, 1)}, 1, 1, False,
        [(27.614237492, 27.614237492), (72.385762508, 27.614237492)],
    ),
    "wild": (
        [(0, 0), (100, 0)], {0: (-1, -1), 1: (-1, 0.2)}, 1, 1, False,
        [(-255.274327548, -255.274327548), (492.232270276, -78.446454053)],
    ),
}  # fmt: skip


def drawn(knots: list, given: dict, tension: float, curl: float, closed: bool) -> np.ndarray:
    directions = [cubic.unit(np.array([given[k]], dtype=float)) if k in given else None for k in range(len(knots))]
    return hobby(np.array([knots], dtype=float), directions, tension, curl, closed)[0]


@pytest.mark.parametrize("name", METAPOST)
def test_the_controls_are_those_of_metapost(name: str) -> None:
    *arguments, controls = METAPOST[name]
    assert drawn(*arguments)[:, 1:3].reshape(-1, 2) == pytest.approx(np.array(controls), abs=1e-8)


def test_the_example_printed_in_the_metapost_manual() -> None:
    # J. D. Hobby, "MetaPost: a user's manual", z0..z1..z2..z3..z4; from memory, to the printed 0.1.
    printed = [(26.8, -1.8), (51.4, 14.6), (67.1, 61.0), (59.8, 84.6)]
    printed += [(25.4, 94.0), (10.5, 84.5), (9.6, 58.8), (18.8, 49.6)]
    assert np.allclose(drawn(MANUAL, {}, 1, 1, False)[:, 1:3].reshape(-1, 2), printed, atol=0.051)


@pytest.mark.skipif(shutil.which("mpost") is None, reason="mpost is not installed")
@pytest.mark.parametrize("name", METAPOST)
def test_the_controls_are_those_of_an_installed_metapost(name: str, tmp_path: Path) -> None:
    *arguments, _ = METAPOST[name]
    (tmp_path / "curve.mp").write_text(program(*arguments))
    command = ["mpost", "-numbersystem=double", "-interaction=nonstopmode", "curve.mp"]
    subprocess.run(command, cwd=tmp_path, capture_output=True, timeout=60)
    words = (tmp_path / "curve.log").read_text().replace("\n", "")
    controls = [float(word) for word in re.findall(r"<(.*?)>", words)]
    assert drawn(*arguments)[:, 1:3].ravel() == pytest.approx(controls, abs=1e-8)


def program(knots: list, given: dict, tension: float, curl: float, closed: bool) -> str:
    """The same curve as MetaPost's input; it shows every control as `<number>`."""
    parts = []
    for k, (x, y) in enumerate(knots):
        free_end = not closed and k in (0, len(knots) - 1)
        words = "{{{},{}}}".format(*given[k]) if k in given else f"{{curl {curl}}}" if free_end else ""
        parts.append(f"({x},{y}){words}")
    path = f"..tension {tension}..".join([*parts, "cycle"] if closed else parts)
    controls = [f"{axis} {c}" for c in ("postcontrol i", "precontrol (i + 1)") for axis in ("xpart", "ypart")]
    return "\n".join([
        "vardef show_one(expr n) = message \"<\" & decimal n & \">\"; enddef;",
        f"path p; p = {path};",
        "for i = 0 upto length p - 1:",
        *(f"show_one({part} of p);" for part in controls),
        "endfor",
        "end",
    ])  # fmt: skip


KNOTS = arrays(float, (3, 5, 2), elements=st.floats(-400, 400).map(lambda x: round(x, 2)))
ANGLES = arrays(float, (3, 2), elements=st.floats(-3.1, 3.1))


def headed(angles: np.ndarray) -> np.ndarray:
    return np.stack([np.cos(angles), np.sin(angles)], axis=-1)


@settings(max_examples=40)
@given(KNOTS, ANGLES)
def test_the_curve_passes_its_knots_smoothly_in_the_given_directions(knots: np.ndarray, angles: np.ndarray) -> None:
    first, inner = headed(angles[:, 0]), headed(angles[:, 1])
    path = hobby(knots, [first, None, inner, None, None])
    assert np.isfinite(path).all()
    assert np.array_equal(path[:, :, 0], knots[:, :-1])
    assert np.array_equal(path[:, :, 3], knots[:, 1:])
    apart = cubic.norm(np.diff(knots, axis=1)).min(axis=1) > 0.1
    assert np.allclose(cubic.start_tangent(path)[apart, 0], first[apart], atol=1e-6)
    assert np.allclose(cubic.start_tangent(path)[apart, 2], inner[apart], atol=1e-6)
    assert np.allclose(cubic.start_tangent(path)[apart, 1:], cubic.end_tangent(path)[apart, :-1], atol=1e-6)


@settings(max_examples=40)
@given(KNOTS, ANGLES, st.floats(-3, 3), st.floats(0.1, 9))
def test_a_curve_turns_and_grows_with_its_knots(
    knots: np.ndarray, angles: np.ndarray, turn: float, size: float
) -> None:
    assume((turns(knots, angles) < np.pi - 1e-4).all())  # a fold back may open to either side
    path = hobby(knots, [headed(angles[:, 0]), None, None, None, headed(angles[:, 1])])
    spin = size * np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    later = hobby(knots @ spin, [headed(angles[:, 0] + turn), None, None, None, headed(angles[:, 1] + turn)])
    assert np.allclose(later, path @ spin, atol=1e-6 * size * (1 + np.abs(path).max()))


def turns(knots: np.ndarray, angles: np.ndarray) -> np.ndarray:
    """How far the curve has to turn at its given ends and its inner knots, in rad."""
    chord = np.diff(knots, axis=1)
    course = np.concatenate([headed(angles[:, :1]), chord, headed(angles[:, 1:])], axis=1)
    return np.abs(np.arctan2(cubic.cross(course[:, :-1], course[:, 1:]), cubic.dot(course[:, :-1], course[:, 1:])))


@settings(max_examples=30)
@given(arrays(float, (2, 2), elements=st.floats(-400, 400)), st.floats(-3.1, 3.1))
def test_between_directions_along_the_chord_it_is_exactly_straight(ends: np.ndarray, angle: float) -> None:
    start, along = ends[:, :], headed(np.full(2, angle))
    knots = np.stack([start, start + 100 * along], axis=1)
    path = hobby(knots, [along, along])
    assert cubic.is_straight(path, 1e-10).all()
    assert np.allclose(path[:, 0], cubic.line(knots[:, 0], knots[:, 1]), atol=1e-10)


def test_two_free_knots_give_a_straight_line_whatever_the_curl() -> None:
    knots = np.array([[[0, 0], [30, 90]]], dtype=float)
    for curl in (0.0, 1.0, 2.0):
        assert np.array_equal(hobby(knots, [None, None], curl=curl)[:, 0], cubic.line([[0, 0]], [[30, 90]]))


def test_a_direction_without_length_is_left_free_in_that_body_alone() -> None:
    knots = np.array([BEND, BEND], dtype=float)
    path = hobby(knots, [np.array([[0, 1], [0, 0]], dtype=float), None, None])
    assert np.array_equal(path[0], hobby(knots, [np.array([[0, 1.0]] * 2), None, None])[0])
    assert np.array_equal(path[1], hobby(knots, [None, None, None])[1])


@pytest.mark.parametrize("closed", [False, True])
def test_coincident_and_folded_knots_stay_finite(closed: bool) -> None:
    same, fold = [(5, 5)] * 4, [(0, 0), (10, 0), (0, 0), (10, 0)]
    part = [(0, 0), (0, 0), (10, 5), (10, 5)]
    path = hobby(np.array([same, fold, part], dtype=float), [None] * 4, closed=closed)
    assert np.isfinite(path).all()
    assert np.array_equal(path[0], np.full_like(path[0], 5))
    assert np.array_equal(path[2, 0], np.zeros((4, 2)))


def test_opposite_directions_along_the_chord_stay_finite() -> None:
    back = np.array([[-1.0, 0]])
    path = hobby(np.array([[[0, 0], [10, 0]]], dtype=float), [back, back])
    assert np.isfinite(path).all()
    assert np.abs(path).max() <= 50


def test_a_body_alone_is_the_same_as_in_a_crowd() -> None:
    knots = np.random.default_rng(1).uniform(-300, 300, (20, 6, 2))
    directions = [headed(np.linspace(-3, 3, 20)), None, None, headed(np.linspace(3, -3, 20)), None, None]
    everyone = hobby(knots, directions)
    for k in range(20):
        alone = hobby(knots[k : k + 1], [d if d is None else d[k : k + 1] for d in directions])
        assert np.array_equal(alone[0], everyone[k])
