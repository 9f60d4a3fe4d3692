"""From Lark's parse to our tree: one short method for each rule of the grammar, and no meaning."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from lark import Token, v_args
from lark.tree import Meta

from draft.base.notes import Span
from draft.language import tree
from draft.language.piece_rules import PieceRules
from draft.language.value_rules import last, lines_of, only, round_it, unquoted, withouts


@v_args(meta=True)
class Builder(PieceRules):
    """Builds the tree of one source; what stands in a piece and the values are built by the rules that it extends."""

    def pattern(self, meta: Meta, children: list[Any]) -> tree.Pattern:
        settings = only(tree.Setting, children)
        base = next((setting for setting in settings if setting.word == "varying"), None)
        rest = tuple(setting for setting in settings if setting is not base)
        return tree.Pattern(*self._named(meta, children[0]), rest, base)

    def uses(self, meta: Meta, children: list[Any]) -> tree.Uses:
        file, names = children
        said = tuple(names or ())
        spans = tuple(self._of(name) for name in said)
        return tree.Uses(self._span(meta), "uses", unquoted(file), self._of(file), tuple(map(str, said)), spans)

    def chart(self, meta: Meta, children: list[Any]) -> tree.Chart:
        name, file, words = children
        span = self._of(name) if name else None
        return tree.Chart(
            self._span(meta), "chart", unquoted(file), self._of(file), str(name or ""), span, unquoted(words)
        )

    def changed(self, meta: Meta, children: list[Any]) -> tree.Changed:
        version, day, words = children
        spans = self._of(version), self._of(day)
        told = unquoted(version), unquoted(day)
        return tree.Changed(self._span(meta), "changed", unquoted(words), self._of(words), *told, *spans)

    def measure(self, meta: Meta, children: list[Any]) -> tree.Measure:
        return tree.Measure(*self._named(meta, children[0]), children[1])

    def own_measure(self, meta: Meta, children: list[Any]) -> tree.OwnMeasure:
        name, low, high, estimate, words = children
        return tree.OwnMeasure(*self._named(meta, name), low, high, estimate, unquoted(words))

    def estimate(self, meta: Meta, children: list[Any]) -> tree.Expr:
        return children[0]  # type: ignore[no-any-return]

    def property(self, meta: Meta, children: list[Any]) -> tree.Property:
        name, default, suiting, words = children
        low, high = suiting or (None, None)
        return tree.Property(*self._named(meta, name), default, low, high, unquoted(words))

    def cloth(self, meta: Meta, children: list[Any]) -> tree.Cloth:
        name, words, *lines = children
        allowances = only(tree.Setting, lines)
        return tree.Cloth(*self._named(meta, name), unquoted(words), only(tree.Property, lines), allowances)

    def cloth_allowance(self, meta: Meta, children: list[Any]) -> tree.Setting:
        return self._setting(meta, "allowance", children[0])

    def suiting(self, meta: Meta, children: list[Any]) -> list[tree.Expr]:
        return children

    def style_range(self, meta: Meta, children: list[Any]) -> tree.StyleRange:
        name, default, low, high, words = children
        return tree.StyleRange(*self._named(meta, name), default, low, high, unquoted(words))

    def style_choice(self, meta: Meta, children: list[Any]) -> tree.StyleChoice:
        name, default, options, words = children
        given = tuple(str(option) for option in options)
        return tree.StyleChoice(*self._named(meta, name), str(default), self._of(default), given, unquoted(words))

    def names(self, meta: Meta, children: list[Any]) -> list[Token]:
        return children

    def definition(self, meta: Meta, children: list[Any]) -> tree.Definition:
        name, value, words = children
        return tree.Definition(*self._named(meta, name), value, unquoted(words))

    def unknown(self, meta: Meta, children: list[Any]) -> tree.Unknown:
        name, low, high, nearest, words = children
        return tree.Unknown(*self._named(meta, name), low, high, nearest, unquoted(words))

    def relation(self, meta: Meta, children: list[Any]) -> tree.Relation:
        left, sort, right = children
        return tree.Relation(self._span(meta), left, " ".join(str(sort).split()), right, "")  # type: ignore[arg-type]

    def wanted(self, meta: Meta, children: list[Any]) -> tree.Relation:
        relation, words = children
        return replace(relation, words=unquoted(words))  # type: ignore[no-any-return]

    def promise(self, meta: Meta, children: list[Any]) -> tree.Relation:
        relation, only, words, fix = children
        return replace(relation, words=unquoted(words), fix=fix or "", branches=round_it(only))  # type: ignore[no-any-return]

    def otherwise(self, meta: Meta, children: list[Any]) -> str:
        return unquoted(children[0])

    def solve(self, meta: Meta, children: list[Any]) -> tree.Solve:
        taken_out = withouts([("solve", children)])
        return tree.Solve(self._span(meta), only(tree.Unknown, children), only(tree.Relation, children), taken_out)

    # ---- joins and what is measured

    def part(self, meta: Meta, children: list[Any]) -> tree.SidePart:
        if isinstance(children[0], tree.Call):
            edge, start, end = children[0].args
            return tree.SidePart(self._span(meta), edge, False, ends=(start, end))  # type: ignore[arg-type]
        edge, turned = children
        return tree.SidePart(self._span(meta), edge, turned is not None)

    def side(self, meta: Meta, children: list[Any]) -> list[tree.SidePart]:
        layer, *parts = children
        return [replace(part, layer=str(layer)) for part in parts] if layer is not None else parts

    def catching(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "catching", children[0]

    def stretched(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "stretched", children[0]

    def eased(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "eased", children[0]

    def left_open(self, meta: Meta, children: list[Any]) -> tree.LeftOpen:
        length, near, on_side, use = children
        side = str(on_side).split()[-1] if on_side is not None else ""
        said = " ".join(word for word in _words(use)[1:] if word not in ("a", "an"))
        return tree.LeftOpen(self._span(meta), length, near, side, said)  # type: ignore[arg-type]

    def notch(self, meta: Meta, children: list[Any]) -> tree.JoinNotch:
        return tree.JoinNotch(self._span(meta), children[0], double=False, words=children[1] or "")

    def double_notch(self, meta: Meta, children: list[Any]) -> tree.JoinNotch:
        return tree.JoinNotch(self._span(meta), children[0], double=True, words=children[1] or "")

    def matched_notch(self, meta: Meta, children: list[Any]) -> tree.JoinNotch:
        return tree.JoinNotch(self._span(meta), children[0], double=False, matched=True, words=children[1] or "")

    def trued(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "trued", children[0] if children else None

    def quarters(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "quarters", True

    def join(self, meta: Meta, children: list[Any]) -> tree.Join:
        name, first, second, *options, words = children
        said = [option for option in options if isinstance(option, tuple)]
        fits = [option for option in said if option[0] in ("stretched", "eased", "gathered")]
        fit, ratio = fits[-1] if fits else ("even", None)
        return tree.Join(
            *self._named(meta, name),
            tuple(first),
            tuple(second),
            ratio=ratio,
            fit=fit,
            notches=only(tree.JoinNotch, options),
            quarters=any(label == "quarters" for label, _ in said),
            trued=any(label == "trued" for label, _ in said),
            trued_over=next((value for label, value in said if label == "trued"), None),
            words=unquoted(words),
            branches=round_it(last(tree.Branch, options)),
            openings=only(tree.LeftOpen, options),
            caught=tuple(next((parts for label, parts in said if label == "catching"), ())),
        )

    def rejoined(self, meta: Meta, children: list[Any]) -> tree.Join:
        name, along, *options = children
        return replace(self.join(meta, [name, [], [], *options]), along=along)

    def patch(self, meta: Meta, children: list[Any]) -> tree.Patch | tree.Join:
        """A whole piece that is laid onto a line, or edges that are stitched down on a seam."""
        name, side, onto, *options, words = children
        first, *more = side
        if more or first.layer or first.reverse or first.ends or len(first.edge.parts) > 1:
            return replace(self.join(meta, [name, side, [], *options, words]), onto=onto)
        branches = round_it(last(tree.Branch, options))
        return tree.Patch(*self._named(meta, name), first.edge, onto, branches=branches)

    def finished(self, meta: Meta, children: list[Any]) -> tree.Finished:
        name, around, value, over, passing, going, only, words = children
        named = self._named(meta, name)
        passed = tuple(passing or ())
        return tree.Finished(
            *named, around is not None, value, unquoted(words), over, passed, going, branches=round_it(only)
        )

    def passing(self, meta: Meta, children: list[Any]) -> list[tree.Expr]:
        return children

    def advice(self, meta: Meta, children: list[Any]) -> tree.Advice:
        to, placed, text, picture, link = children
        place, beside = placed or ("", None)
        return tree.Advice(self._span(meta), to, unquoted(text), picture, place, beside, link)  # type: ignore[arg-type]

    def placed(self, meta: Meta, children: list[Any]) -> list[Any]:
        return [" ".join(_words(children[0])), children[1]]

    def topic(self, meta: Meta, children: list[Any]) -> tree.Topic:
        about, text = children
        return tree.Topic(self._span(meta), str(about), self._of(about), unquoted(text))

    def notion(self, meta: Meta, children: list[Any]) -> tree.Notion:
        name, amount, words = children
        uses = tuple(amount) if isinstance(amount, list) else ()
        return tree.Notion(*self._named(meta, name), None if uses else amount, uses, unquoted(words))

    def notion_for(self, meta: Meta, children: list[Any]) -> list[tree.Ref]:
        return children

    def start(self, meta: Meta, children: list[Any]) -> tree.File:
        return tree.File(
            Span(self._source, 0, len(self._source.text)),
            patterns=only(tree.Pattern, children),
            measures=lines_of("body", (tree.Measure, tree.OwnMeasure), children),
            properties=lines_of("fabric", tree.Property, children),
            styles=lines_of("style", (tree.StyleRange, tree.StyleChoice), children),
            values=lines_of("let", tree.Definition, children),
            solves=only(tree.Solve, children),
            templates=only(tree.Template, children),
            pieces=only(tree.Piece, children),
            joins=lines_of("joins", tree.Join, children),
            finished=lines_of("measurements", tree.Finished, children),
            checks=lines_of("check", tree.Relation, children),
            booklet=lines_of("booklet", (tree.Setting, tree.Topic, tree.Advice), children),
            patches=lines_of("joins", tree.Patch, children),
            without=withouts(children),
            cloths=only(tree.Cloth, children),
            notions=lines_of("notions", tree.Notion, children),
            conditions=tuple(sorted(self.conditions, key=lambda condition: condition.span.start)),
        )


def _words(token: Token | None) -> list[str]:
    """The words of a token of several, which may stand on two rows with a comment between."""
    return re.sub(r"#[^\n]*", " ", str(token or "")).split()
