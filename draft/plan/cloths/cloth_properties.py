"""Which cloth a pattern is planned for: the one that the reader has, else the pattern's own figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from draft.base.notes import Note, caution, error
from draft.base.plainly import Figure, OfCloth, Parts, sentence
from draft.fabrics.fabric import Fabric
from draft.fabrics.properties import PROPERTIES, ClothProperty, outside_cloth_limits, unknown_property
from draft.language import tree
from draft.plan.plan import Style


def settle_cloth(lines: Sequence[tree.Property], fabric: Fabric | None, notes: list[Note]) -> dict[str, tree.Literal]:
    """What each property that the pattern names is set to; notes on what cannot be, and on cloth that is unfit."""
    settled = {}
    for line in lines:
        found = PROPERTIES.get(line.name)
        if found is None:
            notes.append(unknown_property(line.name, line.name_span))
        elif not found.drafts and line.name != "width":
            fact = f"`{line.name}` does not shape the pieces: it is taken from the fabric when they are cut"
            notes.append(error(fact, line.name_span, "take this line out"))
        elif literal := _settle(line, found, fabric, notes):
            settled[line.name] = literal
    return settled


def cloth(settled: Mapping[str, tree.Literal], fabric: Fabric | None) -> dict[str, float]:
    """What is known of the cloth: the fabric's figures, else the pattern's own."""
    return {name: literal.value for name, literal in settled.items()} | dict(fabric.values if fabric else {})


def cloth_described(lines: Sequence[tree.Property], settled: Mapping[str, tree.Literal]) -> tuple[Style, ...]:
    """The properties that a pattern leans on, as the command line lists them."""
    found = []
    for line in lines:
        if line.name in settled:
            low, high = line.low, line.high
            limits = f"from {low.span.text} to {high.span.text}" if low and high else ""
            said = PROPERTIES[line.name].in_words(settled[line.name].value)
            found.append(Style(line.span, line.name, line.words or PROPERTIES[line.name].how, said, limits))
    return tuple(found)


def _settle(line: tree.Property, found: ClothProperty, fabric: Fabric | None, notes: list[Note]) -> tree.Literal | None:
    """The literal with the fabric's figure in it, or None with notes."""
    written = [part for part in (line.default, line.low, line.high) if isinstance(part, tree.Literal)]
    for literal in written:
        if literal.kind is not found.kind:
            hint = f"did you mean `{literal.span.text} %`?" if found.kind.value == "a number" else "try `150 cm`"
            notes.append(error(f"`{literal.span.text}` is {literal.kind.value}", literal.span, hint))
            return None
        if fault := outside_cloth_limits(found, literal.value, literal.span):
            notes.append(fault)
            return None
    default = written[0]
    if len(written) == 3 and not written[1].value <= default.value <= written[2].value:
        notes.append(error(f"the pattern's own `{line.name}` lies outside what it suits", default.span))
        return None
    if fabric is None or line.name not in fabric.values:
        return default
    value = fabric.values[line.name]
    if len(written) == 3 and not written[1].value <= value <= written[2].value:
        suits = f"{written[1].span.text} to {written[2].span.text}"
        fact = f"`{line.name}` of {fabric.name} is {found.in_words(value)}; this pattern suits {suits}"
        ends: Parts = {"low": Figure(written[1].value, found.kind), "high": Figure(written[2].value, found.kind)}
        has: Parts = {"property": OfCloth(line.name), "has": Figure(value, found.kind)}
        plainly = sentence("cloth_does_not_suit", "trial_of_such_cloth", **has, **ends)
        fix = "sew a trial of cheap cloth like it first, or choose another cloth"
        notes.append(caution(fact, line.span, fix, plainly=plainly))
    return tree.Literal(default.span, value, found.kind)
