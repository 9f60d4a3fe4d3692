"""The words that a designer says of edges, cuts and seams, and what is said of an edge behind its line."""

from __future__ import annotations

from dataclasses import field, fields
from typing import Generic, Literal, TypeVar

from draft.base.record import dataclass
from draft.base.units import Kind

CornerKind = Literal["carried", "cut", "stepped", "peaked"]
FasteningKind = Literal["", "button", "buttonhole", "snap"]
LineKind = Literal["", "fold", "level", "lengthen"]
CutAs = Literal["", "as a pair", "right side up"]
Layer = Literal["", "outside", "inside"]
OnSide = Literal["", "left", "right"]
OpenFor = Literal["", "lapped zip", "invisible zip", "slit", "turning"]
Fit = Literal["even", "stretched", "eased", "gathered"]
Each = TypeVar("Each")
"""A value of its own for each body: written, planned, or found."""
One = TypeVar("One")
"""A value that is one for all bodies."""


@dataclass(frozen=True, kw_only=True)
class Finish(Generic[Each, One]):
    """What a designer says of an edge behind its line: the rule of the grammar that reads an option has its name.

    An option that is given a value has a `kind`; the others are said or not.
    """

    allowance: One = field(default=None, metadata={"kind": Kind.LENGTH})  # type: ignore[assignment]
    """The width in mm that is added outside the edge: that of the pattern where nothing is said, 0 on the fold."""
    turned_up: bool = False
    """Whether it is a hem: the neighbours' cutting lines are mirrored about it, so that it lies flat when turned up."""
    on_fold: bool = False
    unjoined: bool = False
    """Whether no join is meant to name it: an opening, an edge that stays raw, one caught in the seam of another."""
    gathered: Each | None = field(default=None, metadata={"kind": Kind.NUMBER})
    """The share of its length `(bodies,)` that the edge is drawn up to before it is sewn; None where it is not."""
    elastic: Each | None = field(default=None, metadata={"kind": Kind.LENGTH})
    """How long the elastic along the edge is while nothing stretches it, mm `(bodies,)`; None where there is none.

    While it is sewn it is stretched to the cloth, so that seams are walked along the cloth as it is drawn; what is
    finished lies at the elastic's length, and gives until the cloth is flat.
    """


FINISHES = {option.name: option.metadata.get("kind") for option in fields(Finish)}
"""The options of an edge by their rules in the grammar, with the kind of what each is given."""
