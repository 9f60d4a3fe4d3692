"""What is bought, and what the booklet says."""

from __future__ import annotations

from dataclasses import field
from typing import Literal as Either

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.language.tree.head_lines import Setting
from draft.language.tree.nodes import Expr, Line, Named, Ref

StepPlace = Either["", "after", "before", "instead of"]


@dataclass(frozen=True)
class Notion(Named):
    """What is bought besides the cloth: so many or so much, or what is needed for seams, edges and marks."""

    amount: Expr | None
    uses: tuple[Ref, ...]
    words: str


@dataclass(frozen=True)
class Topic(Line):
    """A paragraph of the booklet about one of its topics."""

    about: str
    about_span: Span = field(compare=False, repr=False)
    text: str


@dataclass(frozen=True)
class Advice(Line):
    """What a designer says of a step of the booklet, or a step of her own: words, a picture, a link.

    With a `place` it comes before, after or instead of the step `beside`.
    """

    to: Ref
    text: str
    picture: Setting | None
    place: StepPlace = ""
    beside: Ref | None = None
    link: Setting | None = None
