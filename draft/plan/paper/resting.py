"""Which part of the paper rests when a move cuts it in two: names alone decide, and not the order of lines."""

from __future__ import annotations

from draft.base.notes import Note, error
from draft.language import tree
from draft.plan.paper.stage import Stage


def between(stage: Stage, first: int, second: int) -> list[int]:
    """The numbers of the edges that lie whole between two others, onwards round the outline."""
    count = len(stage.outline)
    return [(first + k) % count for k in range(1, (second - first) % count)]


def rests_ahead(stage: Stage, first: int, second: int, hold: tree.Hold | None, move: tree.Move) -> bool | Note:
    """Whether the part from one edge on to another rests: it is held, or has more whole edges, or else a note."""
    ahead, back = (
        [stage.outline[k].name for k in between(stage, *ends)] for ends in ((first, second), (second, first))
    )
    if hold is not None:
        name = hold.edge.text
        if name in ahead or name in back:
            return name in ahead
        if stage.place_in(name) is None:
            fact = f"no edge of `{stage.name.split()[0]}` is called `{name}`, so it cannot be held"
        else:
            fact = f"`{name}` is parted itself, so it does not say what rests"
        return error(fact, hold.edge.span, *_try(ahead, back))
    if len(ahead) != len(back):
        return len(ahead) > len(back)
    fact = "this parts the outline in two alike, and it is not said which part rests"
    return error(fact, move.span, *_try(ahead, back))


def _try(ahead: list[str], back: list[str]) -> tuple[str, ...]:
    names = [*ahead[:1], *back[:1]]
    return (f"try {' or '.join(f'`hold {name}`' for name in names)} above it",) if names else ()
