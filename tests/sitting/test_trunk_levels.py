"""How far down there is cloth all round: where a hem hangs higher in front, no further than there."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from draft.sitting.trunk_levels import Trunk

_ROUND, _ROWS = 72, 20


def _tube(front_higher: float) -> Trunk:
    """Half a tube 400 mm long of radius 150 mm, whose hem runs from its lowest place behind to one higher in front."""
    turned = np.linspace(0.0, np.pi, _ROUND)
    hem = -400.0 + front_higher * (1 - np.cos(turned)) / 2
    share = np.linspace(0.0, 1.0, _ROWS)[:, None]
    heights = hem * share
    across = np.broadcast_to(150 * np.sin(turned), heights.shape)
    deep = np.broadcast_to(150 * np.cos(turned), heights.shape)
    at = np.stack([across, deep, heights], axis=-1).reshape(-1, 3)
    k = np.arange(_ROWS * _ROUND).reshape(_ROWS, _ROUND)
    a, b, c, d = (part.ravel() for part in (k[:-1, :-1], k[:-1, 1:], k[1:, :-1], k[1:, 1:]))
    triangles = np.concatenate([np.stack([a, b, c], 1), np.stack([b, d, c], 1)])
    sewn: Any = SimpleNamespace(merged=np.arange(len(at)), triangles=triangles)
    is_front = at[triangles][:, :, 1].mean(axis=1) < 0
    nothing = np.zeros(len(triangles))
    return Trunk(sewn, at, nothing, nothing, is_front, ~is_front, nothing.astype(bool))


@pytest.mark.parametrize("higher", [0.0, 15.0, 40.0])
def test_there_is_cloth_all_round_down_to_where_the_hem_is_highest(higher: float) -> None:
    low, high = _tube(higher).reaches()
    assert low == pytest.approx(-400.0 + higher, abs=1.5) and high == 0.0
