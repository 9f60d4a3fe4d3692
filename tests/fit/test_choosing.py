"""Which size: by each girth and over all."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.naming import and_list
from draft.fit.choosing import SizeFit, choose
from draft.fit.levels import closeness
from draft.fit.sentences import between, fit_sentence
from draft.garment.garment import Garment
from tests.fit.made_up import garment, measured

SIZES = ("S", "M", "L", "XL")
BUST, HIP = [860.0, 940, 1030, 1130], [950.0, 1010, 1080, 1150]
CHART = garment(
    measured("bust", [b + 60 for b in BUST], over=BUST), measured("hip", [h + 50 for h in HIP], over=HIP), names=SIZES
)


def _people(*bodies: tuple[float, float]) -> Garment:
    bust, hip = ([float(x) for x in column] for column in zip(*bodies, strict=True))
    return garment(
        measured("bust", [b + 60 for b in bust], over=bust),
        measured("hip", [h + 50 for h in hip], over=hip),
        names=tuple(f"p{k}" for k in range(len(bodies))),
    )


def _fit(*bodies: tuple[float, float], **wear: str) -> SizeFit:
    found = choose(CHART, _people(*bodies), **wear)  # type: ignore[arg-type]
    assert found
    return found


def test_everyone_of_the_chart_is_her_own_size() -> None:
    fit = _fit(*zip(BUST, HIP, strict=True))
    assert fit.overall.tolist() == [0, 1, 2, 3]
    assert fit.nearest.tolist() == [[k, k] for k in range(4)]
    assert np.allclose(fit.ease[np.arange(4), np.arange(4)], [60, 50]) and fit.served.all()
    assert fit_sentence(fit, SIZES, 2) == "L at the bust and hip: cut L"


def test_the_frame_decides_and_the_rest_is_graded() -> None:
    """A fitter takes a top by the bust and grades out at the hip (common practice); one size alone would be XL."""
    fit = _fit((945, 1150), (1125, 955), (970, 1040))
    said = "M at the bust, XL at the hip: cut M by the bust and grade out to XL at the hip; or make it to measure"
    assert fit_sentence(fit, SIZES) == said and fit.overall.tolist() == [3, 3, 2]
    assert fit_sentence(fit, SIZES, 1) == (
        "XL at the bust, S at the hip: cut XL by the bust and grade in to S at the hip; or make it to measure"
    )
    assert fit_sentence(fit, SIZES, 2).startswith("M at the bust, L at the hip: cut M by the bust and grade out to L")
    assert fit.grading(0) == {1: 3} and fit.grading(1) == {1: 0}


def test_a_garment_without_a_bust_is_chosen_by_the_hip() -> None:
    skirt = garment(
        measured("waist", [w + 10 for w in (690.0, 770)], over=[690.0, 770]),
        measured("hip", [h + 50 for h in (950.0, 1010)], over=[950.0, 1010]),
        names=("S", "M"),
    )
    slim = garment(measured("waist", [700.0], over=[690.0]), measured("hip", [1060.0], over=[1010.0]))
    fit = choose(skirt, slim)
    assert fit and fit.frame == 1 and fit_sentence(fit, ("S", "M")).endswith("cut M, which has room enough all over")


def test_a_level_that_keeps_its_ease_in_the_size_to_cut_is_left_alone() -> None:
    assert fit_sentence(_fit((1000, 1000)), SIZES) == (
        "L at the bust, M at the hip: cut L, which has room enough all over"
    )


def test_half_the_ease_may_go_and_no_more() -> None:
    """60 mm at the bust: 30 may go. 50 mm at the hip: 25."""
    assert _fit((970, 1010), (971, 1010), (940, 1035), (940, 1036)).overall.tolist() == [1, 2, 1, 2]


def test_the_wearer_may_like_it_closer_or_looser() -> None:
    body = (940.0, 1010.0)
    chosen = [int(_fit(body, wear=wear).overall[0]) for wear in ("closer", "as drafted", "looser")]
    assert chosen == [1, 1, 2] and _fit((975.0, 1010.0), wear="closer").overall[0] == 1


@pytest.mark.parametrize(("wear", "most"), [("closer", 970 / 0.96), ("as drafted", 970), ("looser", 970 / 1.04)])
def test_closer_and_looser_are_4_percent_of_the_body(wear: str, most: float) -> None:
    """M is 100 cm round the bust, of which as drafted 3 cm must be left."""
    assert _fit((most - 0.1, 960), (most + 0.1, 960), wear=wear).overall.tolist() == [1, 2]


def test_half_a_step_below_the_smallest_or_above_the_largest_is_beyond_the_chart() -> None:
    fit = _fit((820, 920), (819, 919), (1180, 1185), (1181, 1186))
    assert fit.beyond.tolist() == [[0, 0], [-1, -1], [0, 0], [1, 1]]


def test_where_one_level_alone_is_too_close_that_one_is_named() -> None:
    assert fit_sentence(_fit((1300, 1150)), SIZES) == (
        "larger than XL at the bust, XL at the hip: even XL is too close at the bust, so make it to measure"
    )


@pytest.mark.parametrize(
    ("names", "said"), [(["bust"], "bust"), (["bust", "hip"], "bust and hip"), (["a", "b", "c"], "a, b and c")]
)
def test_names_in_a_row(names: list[str], said: str) -> None:
    assert and_list(names) == said


@pytest.mark.parametrize("sizes", [SIZES, ("UK 8", "UK 12", "UK 16", "UK 20"), ("S short", "M long", "M short", "L")])
def test_one_between_sizes_is_drafted_like_both(sizes: tuple[str, ...]) -> None:
    fit = _fit((940, 1080), (940, 1010), (1300, 1080))
    assert between(fit, sizes) == f'drafted between sizes: `--like "bust {sizes[1]}, hip {sizes[2]}"`'
    assert between(fit, sizes, 1) == ""  # one size fits all over
    assert between(fit, sizes, 2) == ""  # no size of the chart is like the bust


def test_outside_of_the_chart_it_is_said() -> None:
    fit = _fit((1300, 1300), (780, 1160), (700, 780))
    assert fit.overall.tolist() == [-1, 3, 0] and fit.served.tolist() == [False, False, False]
    assert fit_sentence(fit, SIZES, 0) == (
        "larger than XL at the bust and hip: even XL is too close at the bust, so make it to measure"
    )
    graded = "cut S by the bust and grade out to XL at the hip; or make it to measure"
    assert fit_sentence(fit, SIZES, 1) == f"smaller than S at the bust, XL at the hip: {graded}"
    assert fit_sentence(fit, SIZES, 2) == (
        "smaller than S at the bust and hip: even S is too large, so make it to measure"
    )


def test_a_pattern_that_says_nothing_of_the_body_has_no_best_size() -> None:
    bare = garment(measured("bust", [1000.0, 1100.0]))
    assert choose(bare, bare) is None


def test_two_measurements_over_one_level_count_once() -> None:
    twice = garment(measured("hip", HIP, over=HIP), measured("hip", HIP, over=HIP), names=SIZES)
    fit = choose(twice, twice)
    assert fit and fit.names == ("hip",)


@pytest.mark.parametrize(
    ("ease", "word"), [(-5, "close fitting"), (0, "close fitting"), (8, "semi-fitted"), (10, "loose")]
)
def test_ease_in_words(ease: float, word: str) -> None:
    """Knit tops at a bust of 94 (common practice): to 0 cm close fitting, to 8 semi-fitted, over 10 loose."""
    assert closeness(ease, 94) == word
