"""What a note says to somebody who never saw a file: a sentence of the catalogue, and what it is filled in with.

A `Note` is written for who knows the text and the command. A form is filled in by others, in other languages and
units: for them a note carries a `Sentence`, and whoever shows it takes the words from the languages' files.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import radians
from typing import TYPE_CHECKING, TypeAlias

from draft.base.record import dataclass
from draft.base.units import Kind

if TYPE_CHECKING:  # a note is told where nothing is reckoned yet, and numpy is slow to start
    from draft.base.arrays import Bools


@dataclass(frozen=True)
class Figure:
    """A figure with its kind: mm, rad or a share."""

    value: float
    kind: Kind


@dataclass(frozen=True)
class Typed:
    """Words that stay as somebody wrote them."""

    text: str


@dataclass(frozen=True)
class Measures:
    """Measures of the body, by their names."""

    names: tuple[str, ...]


@dataclass(frozen=True)
class OfCloth:
    """A property of cloth, by its name."""

    name: str


Part: TypeAlias = Figure | Typed | Measures | OfCloth | str
"""What fills a place of a sentence; a text is a name that a pattern gives, or words of its designer's."""
Parts: TypeAlias = dict[str, Part]


@dataclass(frozen=True)
class Sentence:
    """The text of `notes.KEY`, filled in; `sizes` are those that it is so for, and `what_to_do` the keys of advice."""

    key: str
    parts: Mapping[str, Part]
    sizes: tuple[str, ...] = ()
    what_to_do: tuple[str, ...] = ()


AGAIN, SMOOTH_IT = "again", "draw_it_smooth"
"""The two that are advised most: measure once more, and draw a line smooth by hand."""


def sentence(key: str, /, *what_to_do: str, **parts: Part) -> Sentence:
    """A sentence that is so whatever the size."""
    return Sentence(key, parts, (), what_to_do)


def of_sizes(key: str, sizes: tuple[str, ...], where: Bools, /, *what_to_do: str, **parts: Part) -> Sentence:
    """A sentence that is so of the sizes of a mask `(bodies,)`."""
    return Sentence(key, parts, tuple(size for size, so in zip(sizes, where, strict=True) if so), what_to_do)


def mm(value: float) -> Figure:
    """A length in mm."""
    return Figure(float(value), Kind.LENGTH)


def share(value: float) -> Figure:
    """A share, 1 for the whole."""
    return Figure(float(value), Kind.NUMBER)


def degrees(value: float) -> Figure:
    """An angle that is reckoned in degrees."""
    return Figure(radians(value), Kind.ANGLE)
