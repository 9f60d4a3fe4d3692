"""A mistake behind a value of many parts is told as any other, however deep the parts lie."""

from __future__ import annotations

import pytest

from draft.base.notes import Problems, Source
from draft.language.reader import read


@pytest.mark.parametrize("parts", [50, 2000])
def test_a_mistake_behind_a_long_sum_is_told(parts: int) -> None:
    text = f'let\n    ease = {" + ".join(["1 mm"] * parts)}\n    title "Tunic"\n'
    with pytest.raises(Problems) as told:
        read(Source("long.piece", text))
    assert any("`=` was expected" in note.message for note in told.value.notes)
