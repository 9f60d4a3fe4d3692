"""Left and right that were measured apart: by how much they differ, and what is cut for each side."""

from __future__ import annotations

from draft.base.naming import and_list, plain
from draft.base.units import in_words
from draft.bodies.left_right import ACROSS, SIDES
from draft.drafting.drafting import Drafted


def sides_report(drafted: Drafted) -> str:
    """A line for each measure that differs and this pattern follows, and what is cut apart; or an empty text."""
    if drafted.apart is None:
        return ""
    lines = []
    for name in drafted.plan.measures:
        both = [drafted.bodies.sides[side].get(name, 0.0) for side in SIDES]
        if both[0] != both[1]:
            lines.append(f"drafted to each side: {plain(name)}, {_both(drafted, name, both)}")
    return "\n".join((*lines, *_cut(drafted)))


def _both(drafted: Drafted, name: str, both: list[float]) -> str:
    kind, half = drafted.plan.known[name].kind, 2 if name in ACROSS else 1
    said = [f"{side} {in_words(value / half, kind)}" for side, value in zip(SIDES, both, strict=True)]
    return ", ".join(said) + (" (from the middle to the middle)" if half == 2 else "")


def _cut(drafted: Drafted) -> list[str]:
    assert drafted.apart
    apart, said = drafted.apart, []
    if apart.opened:
        said.append(f"opened out whole and cut once, the right side of the cloth up: {_pieces(apart.opened)}")
    if apart.parted:
        said.append(f"a piece of its own for left and right: {_pieces(apart.parted)}")
    return said


def _pieces(names: tuple[str, ...]) -> str:
    return and_list([plain(name) for name in names])
