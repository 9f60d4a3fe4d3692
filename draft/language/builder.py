"""From Lark's parse to our tree: one short method for each rule of the grammar, and no meaning."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from lark import Token, Transformer, v_args
from lark.tree import Meta

from draft.base.notes import Source, Span
from draft.base.units import Kind, read_quantity
from draft.language import tree

_KINDS = {"length": Kind.LENGTH, "angle": Kind.ANGLE, "number": Kind.NUMBER, "direction": Kind.DIRECTION}


_SETTINGS = {"title", "maker", "chart", "uses", "allowance", "cut", "grain", "stretch"}
_SETTINGS |= {"text", "picture", "licence", "link"}  # of the booklet
_BLOCKS = {
    "body",
    "fabric",
    "style",
    "let",
    "inputs",
    "points",
    "outline",
    "darts",
    "pleats",
    "notches",
    "marks",
    "corners",
    "join",
    "finished",
    "check",
    "booklet",
}


def _only(kind: type | tuple[type, ...], children: list[Any]) -> tuple[Any, ...]:
    return tuple(child for child in children if isinstance(child, kind))


def _unquoted(token: Token | None) -> str:
    return str(token)[1:-1] if token is not None else ""


@v_args(meta=True)
class Builder(Transformer[Token, Any]):
    """Builds the tree of one source."""

    def __init__(self, source: Source) -> None:
        super().__init__()
        self._source = source

    def _span(self, meta: Meta) -> Span:
        if meta.empty:
            return Span(self._source, 0, 0)
        return Span(self._source, meta.start_pos, min(meta.end_pos, len(self._source.text)))

    def _of(self, token: Token) -> Span:
        return Span(self._source, token.start_pos or 0, token.end_pos or 0)

    def _named(self, meta: Meta, token: Token) -> tuple[Span, str, Span]:
        return self._span(meta), str(token), self._of(token)

    def __default__(self, data: Token, children: list[Any], meta: Meta) -> Any:
        """A setting, a block of lines, or (any other rule) a word of the language."""
        rule = str(data)
        if rule in _SETTINGS:
            return self._setting(meta, rule, children[0])
        if rule in _BLOCKS:
            return rule, children
        return tree.Call(self._span(meta), rule, tuple(children))

    # ---- values

    def literal(self, meta: Meta, children: list[Any]) -> tree.Literal:
        found = read_quantity(str(children[0]))
        return tree.Literal(self._span(meta), found.value, found.kind)

    def negative_literal(self, meta: Meta, children: list[Any]) -> tree.Literal:
        return tree.Literal(self._span(meta), -children[0].value, children[0].kind)

    def ref(self, meta: Meta, children: list[Any]) -> tree.Ref:
        return tree.Ref(self._span(meta), tuple(str(token) for token in children))

    def by(self, meta: Meta, children: list[Any]) -> tree.By:
        return tree.By(self._span(meta), children[0], tuple(children[1:]))

    def by_choice(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), str(children[0]), children[1])

    def by_level(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), children[0], children[1])

    def by_size(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), tree.SizeName(self._of(children[0]), _unquoted(children[0])), children[1])

    def by_rest(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), tree.SizeName(self._span(meta), None), children[0])

    def square_to(self, meta: Meta, children: list[Any]) -> tree.SquareTo:
        return tree.SquareTo(self._span(meta), children[0])

    # ---- settings

    def _setting(self, meta: Meta, word: str, value: Any) -> tree.Setting:
        if isinstance(value, Token):
            said = _unquoted(value) if value.type == "STRING" else str(value)
            return tree.Setting(self._span(meta), word, said, self._of(value))
        return tree.Setting(self._span(meta), word, value, value.span)

    # ---- blocks of lines

    def pattern(self, meta: Meta, children: list[Any]) -> tree.Pattern:
        return tree.Pattern(*self._named(meta, children[0]), _only(tree.Setting, children))

    def measure(self, meta: Meta, children: list[Any]) -> tree.Measure:
        return tree.Measure(*self._named(meta, children[0]))

    def property(self, meta: Meta, children: list[Any]) -> tree.Property:
        name, default, suiting, words = children
        low, high = suiting or (None, None)
        return tree.Property(*self._named(meta, name), default, low, high, _unquoted(words))

    def suiting(self, meta: Meta, children: list[Any]) -> list[tree.Expr]:
        return children

    def style_range(self, meta: Meta, children: list[Any]) -> tree.StyleRange:
        name, default, low, high, words = children
        return tree.StyleRange(*self._named(meta, name), default, low, high, _unquoted(words))

    def style_choice(self, meta: Meta, children: list[Any]) -> tree.StyleChoice:
        name, default, options, words = children
        given = tuple(str(option) for option in options)
        return tree.StyleChoice(*self._named(meta, name), str(default), self._of(default), given, _unquoted(words))

    def names(self, meta: Meta, children: list[Any]) -> list[Token]:
        return children

    def definition(self, meta: Meta, children: list[Any]) -> tree.Definition:
        name, value, words = children
        return tree.Definition(*self._named(meta, name), value, _unquoted(words))

    def unknown(self, meta: Meta, children: list[Any]) -> tree.Unknown:
        name, low, high, nearest, words = children
        return tree.Unknown(*self._named(meta, name), low, high, nearest, _unquoted(words))

    def relation(self, meta: Meta, children: list[Any]) -> tree.Relation:
        left, sort, right = children
        return tree.Relation(self._span(meta), left, " ".join(str(sort).split()), right, "")  # type: ignore[arg-type]

    def wanted(self, meta: Meta, children: list[Any]) -> tree.Relation:
        relation, words = children
        return replace(relation, words=_unquoted(words))  # type: ignore[no-any-return]

    def promise(self, meta: Meta, children: list[Any]) -> tree.Relation:
        relation, only, words, fix = children
        return replace(relation, words=_unquoted(words), only=only, fix=fix or "")  # type: ignore[no-any-return]

    def otherwise(self, meta: Meta, children: list[Any]) -> str:
        return _unquoted(children[0])

    def only_for(self, meta: Meta, children: list[Any]) -> tree.OnlyFor:
        style, *options = children
        return tree.OnlyFor(self._span(meta), style, tuple(str(option) for option in options))

    def solve(self, meta: Meta, children: list[Any]) -> tree.Solve:
        return tree.Solve(self._span(meta), _only(tree.Unknown, children), _only(tree.Relation, children))

    # ---- pieces

    def input(self, meta: Meta, children: list[Any]) -> tree.Input:
        name, kind, default, words = children
        return tree.Input(*self._named(meta, name), _KINDS[str(kind)], default, _unquoted(words))

    def place(self, meta: Meta, children: list[Any]) -> tree.Place:
        name, *rest = children
        value = tree.By(self._span(meta), rest[0], tuple(rest[1:])) if isinstance(rest[0], tree.Ref) else rest[0]
        return tree.Place(*self._named(meta, name), value)

    def place_row(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), str(children[0]), children[1])

    def straight(self, meta: Meta, children: list[Any]) -> tree.Leg:
        return tree.Leg(self._span(meta), "straight", children[0])

    def arc(self, meta: Meta, children: list[Any]) -> tree.Leg:
        return tree.Leg(self._span(meta), "arc", children[1], about=children[0])

    def following(self, meta: Meta, children: list[Any]) -> tree.Leg:
        return tree.Leg(self._span(meta), "following", children[1], about=children[0])

    def curve(self, meta: Meta, children: list[Any]) -> list[tree.Leg]:
        leaving, through, to, heading, arriving = children
        span = self._span(meta)
        stops = [*(through or []), to]
        legs = [tree.Leg(span, "curve", stop) for stop in stops]
        legs[0] = replace(legs[0], leaving=leaving)
        legs[-1] = replace(legs[-1], heading=heading, arriving=arriving)
        return legs

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

    def turned_up(self, meta: Meta, children: list[Any]) -> str:
        return "turned up"

    def on_fold(self, meta: Meta, children: list[Any]) -> str:
        return "on fold"

    def unjoined(self, meta: Meta, children: list[Any]) -> str:
        return "unjoined"

    def measuring(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "measuring", children[0]

    def gathered(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "gathered", children[0]

    def edge(self, meta: Meta, children: list[Any]) -> tree.Edge:
        name, start, end, *rest = children
        said = {option[0]: option[1] for option in rest if isinstance(option, tuple)}
        said |= {option: True for option in rest if isinstance(option, str)}
        said |= {option.word: option.value for option in rest if isinstance(option, tree.Setting)}
        return tree.Edge(
            *self._named(meta, name),
            start,
            end,
            legs=_legs(rest),
            allowance=said.get("allowance"),
            turned_up="turned up" in said,
            on_fold="on fold" in said,
            unjoined="unjoined" in said,
            measuring=said.get("measuring"),
            gathered=said.get("gathered"),
            only=_last(tree.OnlyFor, rest),
        )

    def dart(self, meta: Meta, children: list[Any]) -> tree.Takeup:
        name, edge, width, at, to, trued = children
        over = trued[1] if trued else None
        return tree.Takeup(*self._named(meta, name), edge, width, at, to, None, trued is not None, over)

    def pleat(self, meta: Meta, children: list[Any]) -> tree.Takeup:
        name, edge, width, at, length = children
        return tree.Takeup(*self._named(meta, name), edge, width, at, None, length)

    def set_notch(self, meta: Meta, children: list[Any]) -> tree.SetNotch:
        double, edge, distance, near = children
        return tree.SetNotch(self._span(meta), edge, distance, near, double is not None)

    def drill(self, meta: Meta, children: list[Any]) -> tree.Mark:
        name, at, words = children
        return tree.Mark(*self._named(meta, name), True, (at,), _unquoted(words))

    def placement(self, meta: Meta, children: list[Any]) -> tree.Mark:
        name, *at, words = children
        return tree.Mark(*self._named(meta, name), False, tuple(at), _unquoted(words))

    def corner(self, meta: Meta, children: list[Any]) -> tree.Corner:
        at, kind, only = children
        return tree.Corner(self._span(meta), at, str(kind), only)  # type: ignore[arg-type]

    def cut(self, meta: Meta, children: list[Any]) -> tree.Setting:
        number, cut_as = children
        said = f"{number} {' '.join(str(cut_as).split())}" if cut_as is not None else str(number)
        return tree.Setting(self._span(meta), "cut", said, self._of(number))

    def _contents(self, meta: Meta, children: list[Any]) -> tree.Body:
        return tree.Body(
            self._span(meta),
            inputs=_gathered("inputs", tree.Input, children),
            given=_only(tree.Definition, children),
            values=_gathered("let", tree.Definition, children),
            points=_gathered("points", tree.Place, children),
            edges=_gathered("outline", tree.Edge, children),
            settings=_only(tree.Setting, children),
            takeups=_gathered("darts", tree.Takeup, children) + _gathered("pleats", tree.Takeup, children),
            notches=_gathered("notches", tree.SetNotch, children),
            marks=_gathered("marks", tree.Mark, children),
            corners=_gathered("corners", tree.Corner, children),
            only=_last(tree.OnlyFor, children),
        )

    def template(self, meta: Meta, children: list[Any]) -> tree.Template:
        name, words, *rest = children
        return tree.Template(*self._named(meta, name), _unquoted(words), self._contents(meta, rest))

    def piece(self, meta: Meta, children: list[Any]) -> tree.Piece:
        name, template, *rest = children
        used = tree.Ref(self._of(template), (str(template),)) if template is not None else None
        return tree.Piece(*self._named(meta, name), used, self._contents(meta, rest))

    # ---- joins and readings

    def part(self, meta: Meta, children: list[Any]) -> tree.Part:
        edge, turned = children
        return tree.Part(self._span(meta), edge, turned is not None)

    def side(self, meta: Meta, children: list[Any]) -> list[tree.Part]:
        return children

    def stretched(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "stretched", children[0]

    def eased(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "eased", children[0]

    def notch(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "notch", children[0]

    def double_notch(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "double notch", children[0]

    def trued(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "trued", children[0] if children else None

    def quarters(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "quarters", True

    def seam(self, meta: Meta, children: list[Any]) -> tree.Seam:
        name, first, second, *options, words = children
        said = [option for option in options if isinstance(option, tuple)]
        fits = [option for option in said if option[0] in ("stretched", "eased", "gathered")]
        fit, ratio = fits[-1] if fits else ("even", None)
        return tree.Seam(
            *self._named(meta, name),
            tuple(first),
            tuple(second),
            ratio=ratio,
            fit=fit,
            notches=tuple(value for label, value in said if label == "notch"),
            double_notches=tuple(value for label, value in said if label == "double notch"),
            quarters=any(label == "quarters" for label, _ in said),
            trued=any(label == "trued" for label, _ in said),
            trued_over=next((value for label, value in said if label == "trued"), None),
            words=_unquoted(words),
            only=_last(tree.OnlyFor, options),
        )

    def patch(self, meta: Meta, children: list[Any]) -> tree.Patch:
        name, piece, onto, *options = children
        return tree.Patch(*self._named(meta, name), piece, onto, _last(tree.OnlyFor, options))

    def reading(self, meta: Meta, children: list[Any]) -> tree.Reading:
        name, around, value, over, passing, going, only, words = children
        named = self._named(meta, name)
        passed = tuple(passing or ())
        return tree.Reading(*named, around is not None, value, _unquoted(words), only, over, passed, going)

    def passing(self, meta: Meta, children: list[Any]) -> list[tree.Expr]:
        return children

    def advice(self, meta: Meta, children: list[Any]) -> tree.Advice:
        to, text, picture = children
        return tree.Advice(self._span(meta), to, _unquoted(text), picture)

    def start(self, meta: Meta, children: list[Any]) -> tree.File:
        return tree.File(
            Span(self._source, 0, len(self._source.text)),
            patterns=_only(tree.Pattern, children),
            measures=_gathered("body", tree.Measure, children),
            properties=_gathered("fabric", tree.Property, children),
            styles=_gathered("style", (tree.StyleRange, tree.StyleChoice), children),
            values=_gathered("let", tree.Definition, children),
            solves=_only(tree.Solve, children),
            templates=_only(tree.Template, children),
            pieces=_only(tree.Piece, children),
            seams=_gathered("join", tree.Seam, children),
            readings=_gathered("finished", tree.Reading, children),
            checks=_gathered("check", tree.Relation, children),
            booklet=_gathered("booklet", (tree.Setting, tree.Advice), children),
            patches=_gathered("join", tree.Patch, children),
        )


def _gathered(label: str, kind: type | tuple[type, ...], children: list[Any]) -> tuple[Any, ...]:
    """The lines of every block of one label, in the order written."""
    blocks = [child[1] for child in children if isinstance(child, tuple) and child[0] == label]
    return tuple(line for block in blocks for line in block if isinstance(line, kind))


def _last(kind: type, children: list[Any]) -> Any:
    """The last child of a kind, or None."""
    found = _only(kind, children)
    return found[-1] if found else None


def _legs(children: list[Any]) -> tuple[tree.Leg, ...]:
    """The legs of an edge in order; a curve through several points is several legs."""
    nested = [child if isinstance(child, list) else [child] for child in children]
    return _only(tree.Leg, [leg for legs in nested for leg in legs])
