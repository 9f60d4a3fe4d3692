"""The part of a path between two points: joints are known, other points are sought, either way round."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from draft.geometry.cubic import point
from draft.geometry.length import length, length_to, segment_lengths
from draft.geometry.nearest import nearest_place, nearest_spot
from draft.geometry.part import part_between

PATH = np.array(
    [
        [
            [[0, 0], [30, 0], [60, 10], [80, 40]],
            [[80, 40], [90, 60], [90, 80], [90, 100]],
            [[90, 100], [90, 120], [60, 140], [40, 140]],
        ]
    ],
    dtype=float,
)


@given(st.integers(0, 3), st.integers(0, 3))
def test_between_joints_it_is_the_segments_between_them(first: int, last: int) -> None:
    joints = np.concatenate([PATH[:, :, 0], PATH[:, -1:, 3]], axis=1)
    kept, fits = part_between(PATH, joints[:, first], joints[:, last])
    low, high = sorted((first, last))
    assert fits.all()
    np.testing.assert_allclose(length(kept)[0], segment_lengths(PATH)[0, low:high].sum(), rtol=1e-15)
    ends = [kept[0, 0, 0], kept[0, -1, 3]]
    np.testing.assert_array_equal(ends, [joints[0, first], joints[0, last]])


@given(st.integers(0, 2), st.floats(0.02, 0.98), st.integers(0, 2), st.floats(0.02, 0.98))
def test_between_other_points_it_is_as_long_as_the_way_between_them(i: int, t: float, k: int, u: float) -> None:
    lengths = segment_lengths(PATH)[0]

    def along(segment: int, at: float) -> float:
        return float(lengths[:segment].sum() + length_to(PATH[0, segment], np.array(at)))

    kept, fits = part_between(PATH, point(PATH[:, i], np.array([t])), point(PATH[:, k], np.array([u])))
    assert fits.all()
    np.testing.assert_allclose(length(kept)[0], abs(along(i, t) - along(k, u)), atol=1e-3)


def test_a_joint_is_a_place_of_no_doubt_and_a_body_beside_it_changes_nothing() -> None:
    two = np.concatenate([PATH, PATH + 0.1])
    to = np.stack([PATH[0, 1, 0], np.array([85.0, 55.0])])
    index, t, off = nearest_spot(two, to)
    assert (index[0], t[0], off[0]) == (1, 0.0, 0.0)
    alone = nearest_spot(two[1:], to[1:])
    assert (index[1], t[1], off[1]) == tuple(part[0] for part in alone)
    assert nearest_place(PATH, PATH[:, -1, 3])[0][0] == segment_lengths(PATH)[0].sum()
