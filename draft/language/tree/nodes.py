"""What everything written is made of: nodes with their places, values, lines that only some choices have."""

from __future__ import annotations

from dataclasses import field

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind


@dataclass(frozen=True)
class Node:
    """Anything that was written somewhere."""

    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class Literal(Node):
    """A quantity, in the engine's own units."""

    value: float
    kind: Kind


@dataclass(frozen=True)
class Ref(Node):
    """A name, or `piece.name`."""

    parts: tuple[str, ...]

    @property
    def text(self) -> str:
        """The name as written."""
        return ".".join(self.parts)


@dataclass(frozen=True)
class Call(Node):
    """A word of the language with what it is given; `word` is the name of its record."""

    word: str
    args: tuple[Expr, ...]


@dataclass(frozen=True)
class SizeName(Node):
    """A size of the chart as the key of a row; None is the row for every other size or option."""

    name: str | None


@dataclass(frozen=True)
class Options(Node):
    """The options of a style that one row is for."""

    names: tuple[str, ...]
    name_spans: tuple[Span, ...] = field(compare=False, repr=False)


@dataclass(frozen=True)
class Row(Node):
    """One row of a `by`: options of a choice, a level or a size, and the value there."""

    key: Options | Expr | SizeName
    value: Expr


@dataclass(frozen=True)
class By(Node):
    """A value for each choice, or a value read between levels."""

    subject: Ref
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class SquareTo(Node):
    """The direction square to an edge where this one meets it."""

    edge: Ref


@dataclass(frozen=True)
class SewnLength(Node):
    """How long an edge is once its darts and pleats are closed and its gathers drawn up.

    Elastic draws it in to its own length, unless it lies `flat`.
    """

    edge: Ref
    flat: bool = False


Expr = Literal | Ref | Call | By | SewnLength


Way = Expr | SquareTo


@dataclass(frozen=True)
class ChoiceIs(Node):
    """A style that is set to one of some options, or to none of them."""

    style: Ref
    negated: bool
    options: tuple[str, ...]
    option_spans: tuple[Span, ...] = field(compare=False, repr=False)


@dataclass(frozen=True)
class Condition(Node):
    """What some lines are there for: all of its parts, or any of them."""

    parts: tuple[ChoiceIs, ...]
    every: bool


@dataclass(frozen=True)
class Branch(Node):
    """One `when` round a line: whether its condition must hold for the line to be there, or must not."""

    condition: Condition
    holds: bool


@dataclass(frozen=True)
class Line(Node):
    """What may stand under a `when`; `branches` are those round it, outermost first."""

    branches: tuple[Branch, ...] = field(default=(), kw_only=True, repr=False)


@dataclass(frozen=True)
class Without(Line):
    """Lines that are taken out of what something is made from; `section` is the one that it stands in, if any."""

    names: tuple[str, ...]
    name_spans: tuple[Span, ...] = field(compare=False, repr=False)
    section: str = ""


@dataclass(frozen=True)
class Named(Line):
    """A declaration of a name."""

    name: str
    name_span: Span = field(compare=False, repr=False)
