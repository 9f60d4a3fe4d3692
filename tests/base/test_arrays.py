"""Indices repeated, and which time it is."""

import numpy as np

from draft.base.arrays import repeated


def test_each_index_comes_as_often_as_it_is_counted():
    which, time = repeated(np.array([2, 0, 3]))
    assert which.tolist() == [0, 0, 2, 2, 2] and time.tolist() == [0, 1, 0, 1, 2]
    assert [len(part) for part in repeated(np.array([], dtype=int))] == [0, 0]
