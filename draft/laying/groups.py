"""Which sizes share one diagram: neighbours whose pieces lie the same way in about the same places."""

from __future__ import annotations

from collections.abc import Sequence

from draft.cloth.like import same_places
from draft.cloth.needs import ClothNeed

Group = tuple[ClothNeed, ...]


def groups(needs: Sequence[ClothNeed]) -> tuple[Group, ...]:
    """Sizes next to one another that one diagram serves, in order. Each is drawn for its last size."""
    found: list[list[ClothNeed]] = []
    for need in needs:
        if found and all(same_places(other.lay, need.lay) for other in (found[-1][0], found[-1][-1])):
            found[-1].append(need)
        else:
            found.append([need])
    return tuple(tuple(group) for group in found)
