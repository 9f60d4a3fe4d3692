"""Options that an edge or a join is given more often than they can hold: of two allowances only one would be cut."""

from __future__ import annotations

from collections.abc import Iterator

from lark import ParseTree, Tree

from draft.base.notes import Note, Source, Span, error
from draft.garment.garment import FINISHES

_ONCE = {
    "edge": (*FINISHES, "measuring", "only_for"),
    "dart": ("trued", "pressed", "short", "bowed"),
    "opened": ("trued", "pressed", "short", "bowed"),
    "patch": ("only_for",),
    "join": ("stretched", "eased", "gathered", "quarters", "trued", "catching", "only_for"),
}
_OF_ONE_SORT = dict.fromkeys(("stretched", "eased"), "gathered")
"""Ways in which one side of a join is longer: it has one of them."""


def repeated(parsed: ParseTree, source: Source) -> Iterator[Note]:
    """A note on every option that stands a second time on its line, or against another."""
    for line in parsed.iter_subtrees_topdown():  # type: ignore[no-untyped-call]
        once = _ONCE.get(str(line.data), ())
        first: dict[str, tuple[str, Span]] = {}
        for child in line.children:
            if not isinstance(child, Tree) or child.data not in once:
                continue
            span = Span(source, child.meta.start_pos, child.meta.end_pos)
            said = str(child.data)
            earlier, place = first.setdefault(_OF_ONE_SORT.get(said, said), (said, span))
            if place is not span:
                yield _note(earlier, place, said, span)


def _note(earlier: str, place: Span, said: str, span: Span) -> Note:
    first, second = (f"`{name.replace('_', ' ')}`" for name in (earlier, said))
    fact = f"{second} is given twice" if first == second else f"{first} and {second} exclude one another"
    return error(fact, span, "take one of the two out", related=[(place, "it is first given here")])
