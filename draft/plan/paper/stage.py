"""One state of a sheet of paper: its outline in order, its lines and points, by their names.

A sheet is traced, then moved, then drawn on; each of these is a state with a name of its own, and everything on it is
found under that name in the table of names (`front_lower.side`; what no one can write holds a space, as in
`front_lower 1.side`). A state knows names alone. What lies where is a value, and differs from body to body.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.geometry.cubic import reverse
from draft.language import tree
from draft.plan.names import Entry
from draft.plan.paper.combining import made_of
from draft.plan.plan import Step, Value, broken
from draft.plan.values import Values


@dataclass(frozen=True)
class Cut:
    """Where an edge came from: the line of a draft that was cut along, and on which side of it the paper lay.

    `forward` is whether the edge runs as the line does; paper that is turned over runs the other way on the same side.
    """

    draft: str
    line: str
    forward: bool
    side: bool


@dataclass(frozen=True)
class Stage:
    """A state: `outline` in its order round the paper, empty for a sheet that has none."""

    name: str
    span: Span
    outline: tuple[tree.Edge, ...] = ()
    lines: tuple[tree.Edge, ...] = ()
    points: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """The points, each with the edges and lines that it is said to lie on."""
    values: tuple[str, ...] = ()
    takeups: tuple[tree.Takeup, ...] = ()
    notches: tuple[tree.Notch, ...] = ()
    marks: tuple[tree.Mark, ...] = ()
    corners: tuple[tree.Corner, ...] = ()
    settings: tuple[tree.Setting, ...] = ()
    cuts: Mapping[str, Cut] = field(default_factory=dict)
    spare: frozenset[str] = frozenset()
    """Lines that were the outline of a draft laid on this one: they close the outline where it is drawn anew."""

    def full(self, name: str) -> str:
        """The name in the table of names."""
        return f"{self.name}.{name}"

    @property
    def edges(self) -> tuple[tree.Edge, ...]:
        """Edges and lines."""
        return (*self.outline, *self.lines)

    def edge(self, name: str) -> tree.Edge | None:
        """The edge or line called `name`."""
        return next((edge for edge in self.edges if edge.name == name), None)

    def takeup(self, name: str) -> tree.Takeup | None:
        """The dart or pleat called `name`."""
        return next((takeup for takeup in self.takeups if takeup.name == name), None)

    def place_in(self, name: str) -> int | None:
        """The number of an edge in the outline."""
        return next((k for k, edge in enumerate(self.outline) if edge.name == name), None)


def ref(span: Span, name: str) -> tree.Ref:
    """A reference to something on the sheet itself."""
    return tree.Ref(span, (name,))


class Sheets:
    """What states are made with: values are found and declared here, under the name of a state."""

    def __init__(self, values: Values) -> None:
        self.values = values
        self.notes = values.notes
        self.stages: dict[str, Stage] = {}

    def found(self, stage: Stage, name: str, span: Span) -> Value:
        """The value of something on a state; a broken one where it stands nowhere, which whoever names it is told."""
        full = stage.full(name)
        return self.values.found(span, full) if full in self.values.names.entries else broken(span)

    def declare(self, full: str, span: Span, make: Callable[[], Value]) -> None:
        """Declare a name whose value is made only if something leans on it."""
        entry = Entry(span, lambda: Step.of(span, full, make()), lazy=True)
        self.values.names.entries.setdefault(full, entry)

    def declare_step(self, full: str, span: Span, make: Callable[[], Step]) -> None:
        """Declare a name whose step is made only if something leans on it."""
        self.values.names.entries.setdefault(full, Entry(span, make, lazy=True))

    def same(self, stage: Stage, name: str, source: Stage, span: Span, other: str | None = None) -> None:
        """Declare that a name of a state is what `other` is on the state before it."""
        self.declare(stage.full(name), span, lambda: self.found(source, other or name, span))

    def turned(self, stage: Stage, name: str, source: Stage, span: Span) -> None:
        """Declare that an edge of a state is one of the state before it, run the other way."""
        full = source.full(name)
        self.declare(
            stage.full(name), span, lambda: made_of(span, Kind.EDGE, (self.values.found(span, full),), reverse)
        )

    def keep(self, stage: Stage) -> Stage:
        """Enter a state, so that its edges are known by their names."""
        self.stages[stage.name] = stage
        for edge in stage.edges:
            self.values.edges.setdefault(stage.full(edge.name), edge)
        return stage
