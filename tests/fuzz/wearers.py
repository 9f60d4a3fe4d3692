"""People, styles and cloths that are odd and within every limit, so that nothing refuses them at the door."""

from __future__ import annotations

import random
from math import degrees

from draft.base.units import Kind
from draft.bodies.measures import MEASURES
from draft.fabrics.properties import PROPERTIES
from draft.language import tree
from tests.fuzz import corpus
from tests.pieces.bundled import file_of


def odd_person(chance: random.Random) -> str:
    """A file of measures: a size of the chart, all of it larger or smaller, some of it much more so."""
    whole = chance.uniform(0.6, 1.6)
    lines = []
    for line in corpus.people()[chance.randrange(7)].splitlines():
        name, _, value = line.partition(" = ")
        if name in MEASURES and chance.random() < 0.95:
            lines.append(f'{name} = "{_measure(name, float(value.strip(chr(34)).split()[0]), whole, chance)}"')
        elif name not in MEASURES:
            lines.append(line)
    return "\n".join([*lines, ""])


def _measure(name: str, usual: float, whole: float, chance: random.Random) -> str:
    """A figure within the limits of its measure, as it is written: cm or degrees."""
    measure = MEASURES[name]
    angle = measure.kind is Kind.ANGLE
    low, high = (degrees(end) if angle else end / 10 for end in (measure.low, measure.high))
    odd = chance.random()
    value = usual * whole * (chance.uniform(0.7, 1.4) if odd < 0.3 else 1)
    if odd > 0.9:
        value = chance.choice((low, high, chance.uniform(low, high)))
    return f"{min(max(value, low), high):.6g} {'deg' if angle else 'cm'}"


def odd_styles(pattern: str, chance: random.Random) -> list[str]:
    """Options that choose some styles of a bundled pattern, often at their limits."""
    words = []
    for style in file_of(pattern).styles:
        if chance.random() < 0.4:
            words += ["--style", f"{style.name}={_choice(style, chance)}"]
    return words


def _choice(style: tree.StyleRange | tree.StyleChoice, chance: random.Random) -> str:
    if isinstance(style, tree.StyleChoice):
        return chance.choice(style.options)
    if not (isinstance(style.low, tree.Literal) and isinstance(style.high, tree.Literal)):
        return "0"
    if chance.random() < 0.4:
        return chance.choice((style.low, style.high)).span.text
    value = chance.uniform(style.low.value, style.high.value)
    if style.low.kind is Kind.ANGLE:
        return f"{degrees(value):.6g} deg"
    return f"{value:.6g} mm" if style.low.kind is Kind.LENGTH else f"{value:.6g}"


def odd_cloth(chance: random.Random) -> str:
    """A file about a cloth that says some of what there is to say."""
    lines = [
        f'{each.name} = "{chance.choice((each.low, each.high, chance.uniform(each.low, each.high))):.6g}'
        f'{" mm" if each.kind is Kind.LENGTH else ""}"'
        for each in PROPERTIES.values()
        if chance.random() < 0.6
    ]
    return "\n".join(['name = "odd"', *lines, ""])
