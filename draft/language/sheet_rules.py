"""The rules of what makes a sheet: what it is traced from, the moves on it, edges that run beside others."""

from __future__ import annotations

from typing import Any

from lark import Token, v_args
from lark.tree import Meta

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.garment import Finish
from draft.language import tree
from draft.language.value_rules import ValueRules, only


@v_args(meta=True)
class SheetRules(ValueRules):
    """Builds origins, moves, and lines of edges that were drawn elsewhere."""

    def head_after(self, meta: Meta, children: list[Any]) -> tree.Ref:
        return tree.Ref(self._of(children[0]), (str(children[0]),))

    def traced_from(self, meta: Meta, children: list[Any]) -> tree.Origin:
        draft, between = children
        return tree.Origin(self._span(meta), draft, tuple(between or ()))

    def between(self, meta: Meta, children: list[Any]) -> list[tree.Ref]:
        return children

    def edge_again(self, meta: Meta, children: list[Any]) -> tree.EdgeAgain:
        name, *options = children
        said = options_of(options)
        measuring = said.pop("measuring", None)
        names = frozenset(said)
        return tree.EdgeAgain(*self._named(meta, name), Finish(**said), names, measuring)

    # ---- legs

    def mirrored_edge(self, meta: Meta, children: list[Any]) -> tree.Call:
        return tree.Call(self._span(meta), "mirrored_edge", tuple(children))

    def beside(self, meta: Meta, children: list[Any]) -> tree.Leg:
        *edges, to = children
        return tree.Leg(self._span(meta), "beside", to, along=tuple(edges))

    # ---- moves

    def on_place(self, meta: Meta, children: list[Any]) -> OnPlace:
        return OnPlace(self._span(meta), *children)

    def hold(self, meta: Meta, children: list[Any]) -> tree.Hold:
        return tree.Hold(self._span(meta), children[0])

    def close(self, meta: Meta, children: list[Any]) -> tree.Close:
        value, dart, into = children
        share = value if dart is not None else None
        return tree.Close(self._span(meta), share, dart if dart is not None else value, into)

    def opened(self, meta: Meta, children: list[Any]) -> tree.Opened:
        name, edge, at, *options = children
        said = dict(options)
        over, pressed, short, bowed = (said.get(option) for option in ("trued", "pressed", "short", "bowed"))
        named = self._named(meta, name)
        return tree.Opened(*named, edge, place_on(edge, at), "trued" in said, over, pressed, short, bowed)

    def let_out(self, meta: Meta, children: list[Any]) -> tree.LetOut:
        into, edge, *at = children
        return tree.LetOut(self._span(meta), str(into), edge, place_on(edge, at[0]) if at else None)  # type: ignore[arg-type]

    def merged(self, meta: Meta, children: list[Any]) -> tree.Merged:
        return tree.Merged(self._span(meta), children[0])

    def slash_along(self, meta: Meta, children: list[Any]) -> dict[str, Any]:
        return {"line": children[0], "start": None, "end": None, "times": 1.0, "times_span": children[0].span}

    def slash_rows(self, meta: Meta, children: list[Any]) -> dict[str, Any]:
        start, end, times = children
        return {"line": None, "start": start, "end": end, "times": float(times), "times_span": self._of(times)}

    def spread(self, meta: Meta, children: list[Any]) -> tuple[Any, ...]:
        return tuple(children)

    spread_more = spread

    def taken_up(self, meta: Meta, children: list[Any]) -> dict[str, Any]:
        word, *rest = children
        if isinstance(word, Token) and word.type == "LET_OUT_AS":
            return {"into": str(word)}
        return {"into": "pleat", "pleat": str(word), "folded": rest[0] if rest else None}

    def slash(self, meta: Meta, children: list[Any]) -> tree.Slash:
        where, *spreads, taken = children
        said = {"into": "", **where, **(taken or {})}
        return tree.Slash(self._span(meta), spreads=tuple(only(tuple, spreads)), **said)

    def mirrored(self, meta: Meta, children: list[Any]) -> str:
        return "mirrored"

    def towards(self, meta: Meta, children: list[Any]) -> tuple[tree.Ref, tree.Ref]:
        return children[0], children[1]

    def lay(self, meta: Meta, children: list[Any]) -> tree.Lay:
        draft, mirrored, word, first, onto, towards = children
        turned = mirrored is not None
        return tree.Lay(self._span(meta), draft, turned, str(word), self._of(word), first, onto, towards)

    def extend(self, meta: Meta, children: list[Any]) -> tree.Extend:
        edge, amount, name = children
        return tree.Extend(*self._named(meta, name), edge, amount)


def options_of(options: list[Any]) -> dict[str, Any]:
    """What is said of an edge, by the names of the options."""
    said: dict[str, Any] = dict(option for option in options if isinstance(option, tuple))
    settings = [option for option in options if isinstance(option, tree.Setting) and not option.branches]
    return said | {option.word: option.value for option in settings}


MOVES = (tree.Hold, tree.Close, tree.Slash, tree.Lay, tree.Extend)


@dataclass(frozen=True)
class OnPlace:
    """`6 cm from armpit`, before it is known on which edge that is."""

    span: Span
    distance: tree.Expr
    near: tree.Ref


def place_on(edge: tree.Ref, at: tree.Ref | OnPlace) -> tree.Expr:
    """A point, or so far along the edge from one of its ends: the word that `on EDGE: DISTANCE from POINT` is."""
    return tree.Call(at.span, "on_edge", (edge, at.distance, at.near)) if isinstance(at, OnPlace) else at
