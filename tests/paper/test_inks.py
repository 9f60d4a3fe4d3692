"""Seven inks for seven sizes: read on white paper, and told apart with all cones, without one kind, and in grey.

Contrast is that of WCAG 2.2, 1.4.3 (4.5 : 1 for text); how colours are seen is computed as for a garment on a form.
"""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest

from draft.paper.drawing.line_styles import INKS, PATTERNS, cutting_stroke
from tests.paper.test_worn_colour_blind import VISIONS, Vision, apart, seen

_TOLD, _NEXT = 20.0, 10.0
"""Least differences in CAM02-UCS: between any two inks in colour, and in grey between those of neighbouring sizes."""


def _luminance(ink: str) -> float:
    parts = [int(ink[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_no_two_of_seven_sizes_have_an_ink_or_a_pattern_in_common() -> None:
    strokes = [cutting_stroke(index) for index in range(7)]
    assert len({stroke.colour for stroke in strokes}) == len({stroke.dash for stroke in strokes}) == 7
    assert len(PATTERNS) == len(INKS)


@pytest.mark.parametrize("ink", INKS)
def test_words_in_an_ink_are_read_on_white(ink: str) -> None:
    assert 1.05 / (_luminance(ink) + 0.05) >= 4.5


@pytest.mark.parametrize("vision", VISIONS[:-1])
def test_any_two_inks_are_told_apart(vision: Vision) -> None:
    assert min(apart(one, other, vision) for one, other in combinations(INKS, 2)) > _TOLD


def test_in_grey_the_inks_of_neighbouring_sizes_differ() -> None:
    grey = [float(one[0]) for one in seen(list(INKS), "grey")]
    assert min(abs(one - other) for one, other in pairwise(grey)) > _NEXT
