"""Both scales of a garment on a form as they are seen without one kind of cones, and printed in grey.

Colours are simulated by colorspacious, a general library of colour spaces: Machado, Oliveira and Fernandes, "A
physiologically-based model for simulation of color vision deficiency" (2009), at full severity. Differences are those
of CAM02-UCS (Luo, Cui and Li, 2006), in which one is about what is just noticed side by side.
"""

from __future__ import annotations

from itertools import product
from typing import Literal

import numpy as np
import pytest
from colorspacious import cspace_convert

from draft.base.arrays import Floats
from draft.paper.worn.worn_colours import ACROSS, CLOTH, DOTS, DRAG, FORM, SHADED, STANDS_OFF, STRETCHED, Band, darker

Vision = Literal["usual", "protanomaly", "deuteranomaly", "tritanomaly", "grey"]
VISIONS: tuple[Vision, ...] = ("usual", "protanomaly", "deuteranomaly", "tritanomaly", "grey")
_STEP, _APART, _MARKED = 4.0, 15.0, 20.0
"""Least differences between steps of a scale, between the scales, and between a mark and what it lies on."""


def seen(colours: list[str], vision: Vision) -> Floats:
    """Colours as they are seen, `(n, 3)` in CAM02-UCS: lightness first."""
    parts = np.array([[int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)] for colour in colours])
    if vision == "grey":
        light = cspace_convert(parts, "sRGB1", "sRGB1-linear") @ np.array([0.2126, 0.7152, 0.0722])  # ITU-R BT.709
        parts = cspace_convert(np.repeat(light[:, None], 3, axis=1), "sRGB1-linear", "sRGB1")
    elif vision != "usual":
        space = {"name": "sRGB1+CVD", "cvd_type": vision, "severity": 100}
        parts = np.clip(cspace_convert(parts, space, "sRGB1"), 0.0, 1.0)
    return np.asarray(cspace_convert(parts, "sRGB1", "CAM02-UCS"))


def apart(one: str, other: str, vision: Vision) -> float:
    a, b = seen([one, other], vision)
    return float(np.linalg.norm(a - b))


@pytest.mark.parametrize("vision", VISIONS)
@pytest.mark.parametrize("scale", [STRETCHED, STANDS_OFF], ids=["stretched", "stands off"])
def test_each_step_of_a_scale_is_darker_and_is_told_from_the_last(scale: tuple[Band, ...], vision: Vision) -> None:
    found = seen([CLOTH, *(band.colour for band in scale)], vision)
    assert (np.diff(found[:, 0]) < -3.0).all()
    assert (np.linalg.norm(np.diff(found, axis=0), axis=1) > _STEP).all()


@pytest.mark.parametrize("vision", VISIONS[:-1])
def test_no_step_of_one_scale_is_taken_for_one_of_the_other(vision: Vision) -> None:
    for warm, blue in product(STRETCHED, STANDS_OFF):
        assert apart(warm.colour, blue.colour, vision) > _APART, (warm, blue)
        for _, times in SHADED:  # one of them in shade
            assert apart(darker(warm.colour, times), blue.colour, vision) > _APART - 2, (warm, blue, times)
            assert apart(warm.colour, darker(blue.colour, times), vision) > _APART - 2, (warm, blue, times)


@pytest.mark.parametrize("vision", VISIONS)
def test_marks_stand_out_from_what_they_lie_on(vision: Vision) -> None:
    for band in STRETCHED[1:]:
        assert apart(ACROSS, band.colour, vision) > _MARKED, band
        assert apart(DRAG.colour, band.colour, vision) > _MARKED, band
    for band in STANDS_OFF:
        assert apart(DOTS, band.colour, vision) > _MARKED, band


def test_what_grey_makes_alike_has_other_marks() -> None:
    """In grey both scales have the same tones: what stands off has dots, what is stretched strokes or nothing."""
    alike = [(w, b) for w, b in product(STRETCHED, STANDS_OFF) if apart(w.colour, b.colour, "grey") < _APART]
    assert alike and all(blue.mark > 0 for _, blue in alike)
    assert [band.mark > 0 for band in STRETCHED] == [False, True, True, True, True]
    for scale in (STRETCHED, STANDS_OFF):
        assert (np.diff([band.mark for band in scale]) > 0.05).all()


@pytest.mark.parametrize("vision", VISIONS)
def test_cloth_is_told_from_the_form(vision: Vision) -> None:
    assert all(apart(CLOTH, tone, vision) > 8.0 for tone in FORM)
