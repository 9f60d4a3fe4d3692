"""What the reader chose among the pattern's styles, held to its limits."""

from __future__ import annotations

from collections.abc import Mapping

from draft.base.notes import Note, error, nearest
from draft.base.plainly import Figure, Parts, Sentence, Typed, sentence
from draft.base.units import QuantityError, read_quantity
from draft.language import tree
from draft.plan.plan import Style


def settle_range(style: tree.StyleRange, given: Mapping[str, str], notes: list[Note]) -> tree.Literal | None:
    """The value of a ranged style: the one given, else its default; None with a note where it cannot be."""
    default, low, high = style.default, style.low, style.high
    assert isinstance(default, tree.Literal) and isinstance(low, tree.Literal) and isinstance(high, tree.Literal)
    for limit in (low, high):
        if limit.kind is not default.kind:
            fact = f"`{limit.span.text}` is {limit.kind.value}, but the default is {default.kind.value}"
            notes.append(error(fact, limit.span, f"give the limits of `{style.name}` as {default.kind.value}"))
            return None
    if low.value > high.value:
        fix = f"try `from {high.span.text} to {low.span.text}`"
        notes.append(error(f"the limits of `{style.name}` stand the wrong way round", low.span, fix))
        return None
    if not low.value <= default.value <= high.value:
        fact = f"the default of `{style.name}` lies outside its own limits"
        notes.append(error(fact, default.span, f"choose from {low.span.text} to {high.span.text}"))
        return None
    if style.name not in given:
        return default
    return _given(style, default, given[style.name], notes)


def _given(style: tree.StyleRange, default: tree.Literal, text: str, notes: list[Note]) -> tree.Literal | None:
    try:
        found = read_quantity(text)
    except QuantityError as reason:
        fact = f"`--style {style.name}={text}`: {reason}"
        notes.append(error(fact, None, f"try `{style.name}={default.span.text}`", plainly=_unread(style)))
        return None
    if found.kind is not default.kind:
        fact = f"`--style {style.name}={text}` is {found.kind.value}, but {default.kind.value} is needed"
        notes.append(error(fact, None, f"try `{style.name}={default.span.text}`", plainly=_unread(style)))
        return None
    low, high = _limits(style)
    if not low.value <= found.value <= high.value:
        fact = f"`--style {style.name}={text}` lies outside {low.span.text} to {high.span.text}"
        ends: Parts = {"low": Figure(low.value, low.kind), "high": Figure(high.value, high.kind)}
        plainly = sentence("style_outside", style=style.words or style.name, **ends)
        notes.append(error(fact, None, f"the pattern's own is {default.span.text}", plainly=plainly))
        return None
    return tree.Literal(default.span, found.value, found.kind)


def _unread(style: tree.StyleRange) -> Sentence:
    return sentence("style_unread", style=style.words or style.name)


def _limits(style: tree.StyleRange) -> tuple[tree.Literal, tree.Literal]:
    assert isinstance(style.low, tree.Literal) and isinstance(style.high, tree.Literal)
    return style.low, style.high


def settle_choice(style: tree.StyleChoice, given: Mapping[str, str], notes: list[Note]) -> str:
    """The option that a choice is set to; a note where there is no such option."""
    chosen = given.get(style.name, style.default)
    if chosen not in style.options:
        span = style.default_span if style.name not in given else None
        hint = nearest(chosen, style.options) or (f"choose from {', '.join(style.options)}",)
        fact = f"`{style.name}` has no option `{chosen}`"
        plainly = sentence("style_has_no_option", style=style.words or style.name, option=Typed(chosen[:40]))
        notes.append(error(fact, span, *hint, plainly=plainly))
        return style.options[0]
    return chosen


def unknown_styles(
    styles: tuple[tree.StyleRange | tree.StyleChoice, ...], given: Mapping[str, str], gone: Mapping[str, str]
) -> list[Note]:
    """Notes on styles that were given but that the pattern does not have; `gone` says what those not there are for."""
    known = [style.name for style in styles]
    choices = (f"choose from {', '.join(known)}" if known else "this pattern has no styles to choose",)
    notes = []
    for name in given:
        if name in gone:
            fact = f"`{name}` is there only when {gone[name]}, and another option is chosen"
            notes.append(error(fact, None, plainly=sentence("style_not_there", style=name)))
        elif name not in known:
            fact = f"this pattern has no style called `{name}`"
            plainly = sentence("style_not_there", style=Typed(name[:40]))
            notes.append(error(fact, None, *(nearest(name, known) or choices), plainly=plainly))
    return notes


def style_described(style: tree.StyleRange | tree.StyleChoice, given: Mapping[str, str]) -> Style:
    """A style as the command line lists it."""
    if isinstance(style, tree.StyleChoice):
        chosen = given.get(style.name, style.default)
        return Style(
            style.span, style.name, style.words, chosen, "one of " + ", ".join(style.options), style.options, True
        )
    low, high = _limits(style)
    chosen = given.get(style.name, style.default.span.text)
    least, most = low.span.text, high.span.text
    return Style(style.span, style.name, style.words, chosen, f"from {least} to {most}", (least, most))
