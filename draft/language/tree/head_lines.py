"""What a pattern says before anything is drawn: settings, measures, cloths, styles, values and what is solved."""

from __future__ import annotations

from dataclasses import field
from typing import Literal as Either

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.language.tree.nodes import Expr, Line, Named, Without


@dataclass(frozen=True)
class Setting(Line):
    """A line such as `title "..."` or `allowance 1/2 in`."""

    word: str
    value: str | Expr
    value_span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class Chart(Setting):
    """A size chart: the usual one, or one more by the name that it is asked for by, and whom it is for."""

    name: str = ""
    name_span: Span | None = field(default=None, compare=False, repr=False)
    words: str = ""


@dataclass(frozen=True)
class Changed(Setting):
    """What a version has changed for makers of an older one: its `value` are the words, on a day such as 2026-05-04."""

    version: str = ""
    day: str = ""
    version_span: Span | None = field(default=None, compare=False, repr=False)
    day_span: Span | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True)
class Uses(Setting):
    """A file that is used: for its templates, or for what is named of it."""

    names: tuple[str, ...] = ()
    name_spans: tuple[Span, ...] = field(default=(), compare=False, repr=False)


@dataclass(frozen=True)
class Pattern(Named):
    """The head of a file that can be drafted; `base` names the file of a pattern that it varies."""

    settings: tuple[Setting, ...]
    base: Setting | None = None


@dataclass(frozen=True)
class Measure(Named):
    """A body measure that the pattern uses, and what it is about where nobody took it."""

    estimate: Expr | None = None


@dataclass(frozen=True)
class OwnMeasure(Named):
    """A body measure of the pattern's own: what it can be, what it is about, and how it is taken."""

    low: Expr
    high: Expr
    estimate: Expr | None
    words: str


@dataclass(frozen=True)
class Property(Named):
    """A property of the cloth that the pattern leans on: its own figure, and the cloths that it suits."""

    default: Expr
    low: Expr | None
    high: Expr | None
    words: str


@dataclass(frozen=True)
class Cloth(Named):
    """One of several cloths that a pattern is cut of."""

    words: str
    properties: tuple[Property, ...]
    allowances: tuple[Setting, ...] = ()


@dataclass(frozen=True)
class StyleRange(Named):
    """A quantity that the reader may choose, within limits."""

    default: Expr
    low: Expr
    high: Expr
    words: str


@dataclass(frozen=True)
class StyleChoice(Named):
    """One of several names that the reader may choose."""

    default: str
    default_span: Span = field(compare=False, repr=False)
    options: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class Definition(Named):
    """`name = value`."""

    value: Expr
    words: str


@dataclass(frozen=True)
class Unknown(Named):
    """A value to be found within a range."""

    low: Expr
    high: Expr
    nearest: Expr | None
    words: str


Sort = Either["equals", "at least", "at most"]


@dataclass(frozen=True)
class Relation(Line):
    """Two values and how they must stand to one another; `words` say why, and `fix` what helps where they do not."""

    left: Expr
    sort: Sort
    right: Expr
    words: str
    fix: str = ""


@dataclass(frozen=True)
class Solve(Line):
    """Unknowns and the relations that settle them."""

    unknowns: tuple[Unknown, ...]
    relations: tuple[Relation, ...]
    without: tuple[Without, ...] = ()


@dataclass(frozen=True)
class Input(Named):
    """What a template is given; of a choice also its `options`."""

    kind: Kind
    default: Expr | None
    words: str
    options: tuple[str, ...] = ()

    @property
    def what(self) -> str:
        """What is to be given, in words."""
        return f"a choice of {', '.join(self.options)}" if self.options else self.kind.value
