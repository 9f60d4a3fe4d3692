"""The rules of what stands in a piece or template."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from lark import Token, v_args
from lark.tree import Meta

from draft.base.notes import Span
from draft.base.units import Kind
from draft.garment.garment import Finish
from draft.language import tree
from draft.language.sheet_rules import MOVES, SheetRules, options_of, place_on
from draft.language.value_rules import last, lines_of, only, round_it, unquoted, withouts

_KINDS = {
    "length": Kind.LENGTH,
    "angle": Kind.ANGLE,
    "number": Kind.NUMBER,
    "direction": Kind.DIRECTION,
    "point": Kind.POINT,
    "edge": Kind.EDGE,
}


@v_args(meta=True)
class PieceRules(SheetRules):
    """Builds pieces, their points, edges, darts, notches and marks."""

    def input(self, meta: Meta, children: list[Any]) -> tree.Input:
        name, kind, default, words = children
        options = tuple(map(str, kind)) if isinstance(kind, list) else ()
        kind = Kind.CHOICE if options else _KINDS[str(kind)]
        return tree.Input(*self._named(meta, name), kind, default, unquoted(words), options)

    def offered(self, meta: Meta, children: list[Any]) -> list[Token]:
        return children[0]  # type: ignore[no-any-return]

    def place(self, meta: Meta, children: list[Any]) -> tree.Place:
        name, *rest = children
        value = (
            tree.By(self._span(meta), rest[0], only(tree.Row, rest[1:])) if isinstance(rest[0], tree.Ref) else rest[0]
        )
        return tree.Place(*self._named(meta, name), value)

    def place_row(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), self._options(children[:1]), children[1])

    def straight(self, meta: Meta, children: list[Any]) -> tree.Leg:
        return tree.Leg(self._span(meta), "straight", children[0])

    def arc(self, meta: Meta, children: list[Any]) -> tree.Leg:
        return tree.Leg(self._span(meta), "arc", children[1], about=children[0])

    def following(self, meta: Meta, children: list[Any]) -> tree.Leg:
        return tree.Leg(self._span(meta), "following", children[1], about=children[0])

    def curve(self, meta: Meta, children: list[Any]) -> list[tree.Leg]:
        evenly, leaving, through, to, heading, arriving = children
        span = self._span(meta)
        stops = [*(through or []), to]
        legs = [tree.Leg(span, "curve", stop, evenly=bool(evenly)) for stop in stops]
        legs[0] = replace(legs[0], leaving=leaving)
        legs[-1] = replace(legs[-1], heading=heading, arriving=arriving)
        return legs

    def evenly(self, meta: Meta, children: list[Any]) -> bool:
        return True

    def through(self, meta: Meta, children: list[Any]) -> list[tree.Ref]:
        return children

    def leaving(self, meta: Meta, children: list[Any]) -> tree.Way:
        return children[0]  # type: ignore[no-any-return]

    heading = leaving
    arriving = leaving
    worn_over = leaving
    running = leaving
    nearest = leaving
    default = leaving
    over_length = leaving

    def measuring(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "measuring", children[0]

    def edge(self, meta: Meta, children: list[Any]) -> tree.Edge:
        name, start, end, *rest = children
        said = options_of(rest)
        settings = only(tree.Setting, rest)
        measuring = said.pop("measuring", None)
        sometimes = [tree.EdgeOption(s.span, s.word, s.value, branches=s.branches) for s in settings if s.branches]
        return tree.Edge(
            *self._named(meta, name),
            start,
            end,
            _legs(rest),
            Finish(**said),
            measuring,
            (*only(tree.EdgeOption, rest), *sometimes),
            branches=round_it(last(tree.Branch, rest)),
        )

    def dart(self, meta: Meta, children: list[Any]) -> tree.Takeup:
        name, edge, width, at, to, other, *options = children
        said = dict(options)
        over, pressed, short = (said.get(option) for option in ("trued", "pressed", "short"))
        named = self._named(meta, name)
        one = tree.Takeup(*named, edge, width, place_on(edge, at), to, None, "trued" in said, over, pressed, short)
        return replace(one, other=other, bowed=said.get("bowed"))

    def second_point(self, meta: Meta, children: list[Any]) -> tree.Ref:
        return children[0]  # type: ignore[no-any-return]

    def pressed(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "pressed", children[0]

    def short(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "short", children[0]

    def bowed(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        by, way = children
        towards = way if isinstance(way, tree.Ref) else None
        return "bowed", tree.Bowed(self._span(meta), by, towards, apart=way == "apart")

    def bowed_towards(self, meta: Meta, children: list[Any]) -> tree.Ref:
        return children[0]  # type: ignore[no-any-return]

    def pleat(self, meta: Meta, children: list[Any]) -> tree.Takeup:
        name, edge, width, at, length, towards = children
        named = self._named(meta, name)
        return tree.Takeup(*named, edge, width, place_on(edge, at), None, length, pressed=towards)

    def laid_towards(self, meta: Meta, children: list[Any]) -> tree.Ref:
        return children[0]  # type: ignore[no-any-return]

    def set_notch(self, meta: Meta, children: list[Any]) -> tree.Notch:
        double, edge, distance, near, words = children
        return tree.Notch(self._span(meta), edge, distance, near, double is not None, words=words or "")

    def marked(self, meta: Meta, children: list[Any]) -> str:
        return unquoted(children[0])

    def drill(self, meta: Meta, children: list[Any]) -> tree.Mark:
        name, at, words = children
        return tree.Mark(*self._named(meta, name), True, (at,), unquoted(words))

    def fastening_kind(self, meta: Meta, children: list[Any]) -> str:
        return str(children[0])

    def fastening(self, meta: Meta, children: list[Any]) -> tree.Mark:
        name, kind, at, hole, words = children
        length, going = hole or (None, None)
        return tree.Mark(*self._named(meta, name), True, (at,), unquoted(words), kind, length, going)

    def hole(self, meta: Meta, children: list[Any]) -> list[tree.Expr | None]:
        return children

    def line_kind(self, meta: Meta, children: list[Any]) -> str:
        return str(children[0]).replace("line", "")

    across_kind = line_kind

    def placement(self, meta: Meta, children: list[Any]) -> tree.Mark:
        name, kind, *at, words = children
        return tree.Mark(*self._named(meta, name), False, tuple(at), unquoted(words), line=kind)

    def across_line(self, meta: Meta, children: list[Any]) -> tree.Mark:
        name, kind, at, words = children
        return tree.Mark(*self._named(meta, name), False, (at,), unquoted(words), line=kind)

    def corner(self, meta: Meta, children: list[Any]) -> tree.Corner:
        at, kind, only = children
        return tree.Corner(self._span(meta), at, str(kind), branches=round_it(only))  # type: ignore[arg-type]

    def cut(self, meta: Meta, children: list[Any]) -> tree.Cut:
        whole = Span(self._source, children[0].span.start, children[-1].span.end)
        return tree.Cut(self._span(meta), "cut", ", ".join(map(_said, children)), whole, tuple(children))

    def cut_part(self, meta: Meta, children: list[Any]) -> tree.CutPart:
        number, cloth, cut_as, layer = children
        said = " ".join(str(cut_as).split()) if cut_as is not None else ""
        span = self._span(meta)
        side = str(layer).split()[1] if layer is not None else ""
        return tree.CutPart(span, str(number), self._named_ref(cloth), said, side, self._of(number))  # type: ignore[arg-type]

    def _contents(self, meta: Meta, children: list[Any]) -> tree.Contents:
        return tree.Contents(
            self._span(meta),
            inputs=lines_of("inputs", tree.Input, children),
            given=only(tree.Definition, children),
            values=lines_of("let", tree.Definition, children),
            points=lines_of("points", tree.Place, children),
            edges=lines_of("outline", tree.Edge, children),
            settings=only(tree.Setting, children),
            takeups=lines_of("darts", tree.Takeup, children) + lines_of("pleats", tree.Takeup, children),
            notches=lines_of("notches", tree.Notch, children),
            marks=lines_of("marks", tree.Mark, children),
            corners=lines_of("corners", tree.Corner, children),
            lines=lines_of("lines", tree.Edge, children),
            moves=lines_of("moves", MOVES, children),
            again=lines_of("outline", tree.EdgeAgain, children),
            without=withouts(children),
            after=only(tree.MadeAfter, children),
        )

    def template(self, meta: Meta, children: list[Any]) -> tree.Template:
        name, base, words, *rest = children
        contents = self._contents(meta, rest)
        return tree.Template(*self._named(meta, name), unquoted(words), contents, self._named_ref(base))

    def made_after(self, meta: Meta, children: list[Any]) -> tree.MadeAfter:
        return tree.MadeAfter(self._span(meta), tree.Ref(self._of(children[0]), (str(children[0]),)))

    def _named_ref(self, token: Token | None) -> tree.Ref | None:
        return tree.Ref(self._of(token), (str(token),)) if token is not None else None

    def piece(self, meta: Meta, children: list[Any]) -> tree.Piece:
        name, origin, *rest = children
        template = origin if isinstance(origin, tree.Ref) else None
        traced = origin if isinstance(origin, tree.Origin) else None
        body, branches = self._contents(meta, rest), round_it(last(tree.Branch, rest))
        return tree.Piece(*self._named(meta, name), template, body, traced, branches=branches)

    def block(self, meta: Meta, children: list[Any]) -> tree.Piece:
        name, origin, words, *rest = children
        return replace(self.piece(meta, [name, origin, *rest]), is_block=True, words=unquoted(words))


def _said(part: tree.CutPart) -> str:
    """A part of a `cut` line as it is written, whatever its spaces."""
    of = ("of", part.cloth.text) if part.cloth else ()
    layer = ("as", part.layer) if part.layer else ()
    return " ".join((part.count, *of, *filter(None, (part.cut_as,)), *layer))


def _legs(children: list[Any]) -> tuple[tree.Leg, ...]:
    """The legs of an edge in order; a curve through several points is several legs."""
    nested = [child if isinstance(child, list) else [child] for child in children]
    return only(tree.Leg, [leg for legs in nested for leg in legs])
