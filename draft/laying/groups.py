"""Which sizes share one diagram: neighbours whose pieces lie the same way in about the same places."""

from __future__ import annotations

from collections.abc import Sequence

from draft.cloth.like import same_places
from draft.cloth.needs import Need

Group = tuple[Need, ...]


def groups(needs: Sequence[Need]) -> tuple[Group, ...]:
    """Sizes next to one another that one diagram serves, in order. Each is drawn for its last size."""
    found: list[list[Need]] = []
    for need in needs:
        if found and all(same_places(other.layout, need.layout) for other in (found[-1][0], found[-1][-1])):
            found[-1].append(need)
        else:
            found.append([need])
    return tuple(tuple(group) for group in found)
