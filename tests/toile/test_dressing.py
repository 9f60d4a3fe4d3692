"""Bundled tops and a skirt on forms: they come to rest, on the outside, and hang where a tape says."""

from __future__ import annotations

import numpy as np
import pytest

from draft.toile.dressed import Dressed, Refused
from tests.toile.dressed_up import attempt, worn

CASES = [
    ("marlpit", {}),
    ("marlpit", {"neckline": "vee", "sleeve": "long"}),
    ("tidemill", {}),
    ("netloft", {}),
    ("ropewalk", {}),
    ("roundhouse", {}),
]


@pytest.mark.parametrize("number", range(len(CASES)))
def test_a_size_on_its_own_form(number: int) -> None:
    name, styles = CASES[number]
    dressed = worn(name, **styles)
    down, sewn = dressed.states["down"], dressed.sewn
    assert down.settled
    assert down.penetration < 0.5
    assert down.positions[:, 0].min() > -1.0
    assert np.abs(down.positions[sewn.merged[sewn.on_middle], 0]).max() < 1e-9
    single = sewn.layers < 1.5
    assert np.percentile(np.abs(down.across[single]), 90) < 0.06
    for end, height in dressed.level_hem.items():
        assert dressed.hem["down"][end] == pytest.approx(height, abs=20.0)


def test_let_go_the_hem_rises_and_friction_holds_it_between() -> None:
    dressed = worn("tidemill", states=("down", "ride", "held"))
    for end, down in dressed.hem["down"].items():
        assert down - 3.0 < dressed.hem["held"][end] < dressed.hem["ride"][end] + 3.0
    assert np.mean(list(dressed.hem["ride"].values())) > np.mean(list(dressed.hem["down"].values())) + 2.0


def test_where_it_is_tight_it_is_stretched_as_far_as_the_girths_say() -> None:
    dressed = worn("marlpit", girths=(("hip_girth", 115.0),))
    down, sewn = dressed.states["down"], dressed.sewn
    trunk = np.isin(np.array(sewn.roles)[sewn.piece_of_triangle], ("front", "back"))
    z = down.positions[sewn.merged[sewn.triangles]][:, :, 2].mean(axis=1)
    low = trunk & (z < min(dressed.hem["down"].values()) + 30.0)
    assert np.average(down.across[low], weights=None) == pytest.approx(1150.0 / 1060.0 - 1.0, abs=0.02)


def test_a_garment_that_is_far_too_small_is_stretched_or_refused() -> None:
    found = attempt("marlpit", "XS", on="2XL")
    assert isinstance(found, Refused) or found.states["down"].across.max() > 0.2


def test_tension_runs_where_the_cloth_is_stretched() -> None:
    dressed = worn("marlpit", girths=(("hip_girth", 115.0),))
    assert isinstance(dressed, Dressed)
    down = dressed.states["down"]
    assert np.allclose(np.linalg.norm(down.pull, axis=1), 1.0)
    tight = (down.across > 0.06) & (dressed.sewn.layers < 1.5)
    assert tight.any()
    assert down.tension[tight].min() > 0.0
    assert np.median(np.abs(down.pull[tight, 2])) < 0.3
