"""What is given again is what would be found, to the last bit, and nobody changes it for another."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.geometry import known_again as room
from draft.geometry.ends import end_directions
from draft.geometry.known_again import known_again


def _counted(asked: list[int]):  # type: ignore[no-untyped-def]
    @known_again
    def doubled(values: Floats, times: int = 1) -> tuple[Floats, Floats]:
        asked.append(len(values))
        return 2 * times * values, np.copysign(1.0, values)

    return doubled


def test_of_equal_arrays_nothing_is_found_twice() -> None:
    asked: list[int] = []
    doubled = _counted(asked)
    values = np.linspace(-1, 1, 40).reshape(10, 4)
    for given in (values, values.copy(), np.broadcast_to(values, (10, 4)), values[:, ::1]):
        assert np.array_equal(doubled(given)[0], 2 * values)
    assert asked == [10]
    assert np.array_equal(doubled(values, 2)[0], 4 * values) and len(asked) == 2
    assert np.array_equal(doubled(values, times=3)[0], 6 * values)


def test_what_differs_in_one_number_or_a_sign_of_zero_is_found_anew() -> None:
    asked: list[int] = []
    doubled = _counted(asked)
    values = np.zeros(1000)
    doubled(values)
    for number in (1, 333, 998):  # none of those that tell where to look
        other = values.copy()
        other[number] = 1e-300
        assert np.array_equal(doubled(other)[0], 2 * other)
    other = values.copy()
    other[500] = -0.0
    assert doubled(other)[1][500] == -1.0
    assert len(asked) == 5


def test_neither_what_was_given_nor_what_was_found_is_shared() -> None:
    asked: list[int] = []
    doubled = _counted(asked)
    values = np.arange(5.0)
    first = doubled(values)
    first[0][:] = 7.0
    assert np.array_equal(doubled(np.arange(5.0))[0], 2 * np.arange(5.0)) and asked == [5]
    values[2] = 9.0
    assert doubled(values)[0][2] == 18.0


def test_it_keeps_no_more_than_it_may(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MOST_BYTES", 10_000)
    asked: list[int] = []
    doubled = _counted(asked)
    for k in range(20):
        doubled(np.full(50, float(k)))
    assert len(asked) == 20
    doubled(np.full(50, 19.0))
    assert len(asked) == 20  # the last is still there
    doubled(np.full(50, 0.0))
    assert len(asked) == 21  # the first is not
    doubled(np.zeros(9_000))
    doubled(np.zeros(9_000))
    assert len(asked) == 23  # too large to be kept


def test_directions_keep_the_sign_of_nothing() -> None:
    path = np.zeros((1, 1, 4, 2))
    path[0, 0, :, 0] = [3.0, 2.0, 1.0, 0.0]
    other = path.copy()
    other[0, 0, :, 1] = [0.0, -0.0, -0.0, -0.0]
    angles = [float(np.arctan2(*end_directions(one)[0][0, ::-1])) for one in (path, other)]
    bare = [float(np.arctan2(*end_directions.__wrapped__(one)[0][0, ::-1])) for one in (path, other)]  # type: ignore[attr-defined]
    assert angles == bare
