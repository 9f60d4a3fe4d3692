"""Which figures of a file move a measurement of the garment: each is turned a little, and the garment drafted anew.

Nobody says by hand what leans on what. A figure that moves one level and little else is where to look first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from draft.base.notes import Problems, Span
from draft.base.record import dataclass
from draft.base.units import Kind, QuantityError, read_quantity
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted, draft_plan
from draft.drafting.request import Whom
from draft.language import tree
from draft.language.walking import nodes
from draft.plan.library import Texts

_STEPS = {Kind.LENGTH: (10.0, "1 cm"), Kind.ANGLE: (math.radians(1.0), "1 deg"), Kind.NUMBER: (0.01, "1 %")}
"""By how much a figure is turned, by its kind, and how that is said."""
_LEAST = 2.0
"""mm: what moves a level by less is not what it leans on."""
_SHOWN = 2
_NEARLY = 0.5
"""A second figure is told of where it is at least so sharp, as a share of the first."""


@dataclass(frozen=True)
class FigureBehind:
    """A figure of a file: the line that it stands in, what a `step` more of it moves, mm by the measurements' names.

    `least` and `most` are whether it stands at that end of a style's range already.
    """

    name: str
    span: Span
    is_style: bool
    step: str
    moves: Mapping[str, float]
    least: bool = False
    most: bool = False

    def helps(self, level: str, less: bool) -> bool:
        """Whether it can still be moved so that a level becomes less, or else more, and by enough to see."""
        far = self.moves.get(level, 0.0)
        is_at_end = self.least if (far > 0) == less else self.most
        return abs(far) >= _LEAST and not is_at_end

    def sharp(self, level: str) -> float:
        """How much of all that it moves is this level, from 0 to 1; styles, which readers choose too, come first."""
        whole = sum(abs(far) for far in self.moves.values())
        return abs(self.moves.get(level, 0.0)) / whole + (0.5 if self.is_style else 0.0)


def figures_behind(drafted: Drafted, size: str) -> list[FigureBehind]:
    """Every figure under `style` and `let` that moves a finished measurement of this size."""
    assert drafted.planned
    request = replace(drafted.planned.request, whom=Whom(sizes=(size,)))
    one = draft_and_check(request)
    found = (_turned(one, name, literal, is_style) for name, literal, is_style in _figures(drafted.planned.texts))
    return [figure for figure in found if figure]


def look_at(level: str, less: bool, figures: Sequence[FigureBehind]) -> list[FigureBehind]:
    """The figures to look at for a measurement that is to be `less`, or else more: the sharpest first."""
    moving = [figure for figure in figures if figure.helps(level, less)]
    ordered = sorted(moving, key=lambda figure: -figure.sharp(level))
    return [figure for figure in ordered if figure.sharp(level) >= _NEARLY * ordered[0].sharp(level)][:_SHOWN]


def _turned(one: Drafted, name: str, literal: tree.Literal, is_style: bool) -> FigureBehind | None:
    """What a step more of a figure moves; None where that is nothing, or the garment cannot be drafted so."""
    step, said = _STEPS[literal.kind]
    try:
        other = draft_plan(one.plan, one.bodies, {literal.span: literal.value + step})
    except Problems:
        return None
    before = {finished.name: float(finished.values[0]) for finished in one.garment.finished}
    after = {finished.name: float(finished.values[0]) for finished in other.garment.finished}
    moves = {key: after[key] - before[key] for key in after if key in before and math.isfinite(after[key])}
    moves = {key: far for key, far in moves.items() if abs(far) >= 0.1}
    if not moves:
        return None
    low, high = _ends(one, name) if is_style else (-math.inf, math.inf)
    return FigureBehind(name, literal.span, is_style, said, moves, literal.value <= low, literal.value >= high)


def _ends(one: Drafted, name: str) -> tuple[float, float]:
    """The range of a style; without ends where it has none that are plain amounts."""
    style = next((style for style in one.plan.styles if style.name == name and not style.is_choice), None)
    try:
        low, high = (read_quantity(end).value for end in (style.ends if style else ()))
    except (QuantityError, ValueError):
        return -math.inf, math.inf
    return low, high


def _figures(texts: Texts) -> Iterator[tuple[str, tree.Literal, bool]]:
    """The quantities under `style` and `let` of a pattern and of those that it varies, each with its line's name."""
    one: Texts | None = texts
    while one:
        for style in one.main.styles:
            if isinstance(style, tree.StyleRange) and isinstance(style.default, tree.Literal):
                yield style.name, style.default, True
        for line in one.main.values:
            yield from ((line.name, node, False) for node in nodes(line.value) if _is_figure(node))  # type: ignore[misc]
        one = one.base


def _is_figure(node: tree.Node) -> bool:
    """Whether it is a quantity with a unit: a plain number is mostly a count or a factor of the construction."""
    return (
        isinstance(node, tree.Literal)
        and node.kind in _STEPS
        and (node.kind is not Kind.NUMBER or node.span.text.rstrip().endswith("%"))
    )
