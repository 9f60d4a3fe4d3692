"""What is asked for, as plain data: which pattern, for whom, in which styles, of which cloth.

A request is made from a command line, from a page's form or from a line of a batch of orders. It compares by what it
says, and `dataclasses.replace` gives the next one: another person, another style.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from pathlib import Path

from draft.base.record import dataclass


class RequestError(ValueError):
    """A text that no request can be made from; its message says why."""


@dataclass(frozen=True)
class Whom:
    """One person, or sizes of a chart: all of them unless `sizes` names some.

    A person is a file of measures (`body`), a text such as `bust M, hip XL` (`like`), texts such as `bust_girth=98cm`
    (`answers`), or one of the first two with answers in place of some of it; `figure` describes one in words,
    such as `sloping shoulders, bust D`. `chart` is another than the pattern's own.
    """

    body: Path | None = None
    chart: Path | None = None
    sizes: tuple[str, ...] | None = None
    like: str | None = None
    answers: tuple[str, ...] = ()
    figure: str | None = None
    name: str | None = None
    """What one person is called whose measures are answered, or who is between sizes; of a file its own name stands."""

    @property
    def is_person(self) -> bool:
        """Whether one person is meant, and not sizes of a chart."""
        return bool(self.body or self.like or self.answers)


ALL_SIZES = Whom()
"""Of the pattern's own chart."""


@dataclass(frozen=True)
class Request:
    """One pattern, for whom, in which styles, of which cloth.

    `pattern` is the name of a bundled one or a path, and so is `fabric`; `styles` are what was chosen, by their names.
    `unwashed` pieces are larger by what washing takes from the fabric.
    """

    pattern: str
    whom: Whom = ALL_SIZES
    styles: Mapping[str, str] = field(default_factory=dict, hash=False)
    fabric: str | None = None
    unwashed: bool = False
    allowance: float | None = None
    """What is added outside of every seam, mm, hems excepted; None for what the designer says."""


def sizes_in(text: str | None) -> tuple[str, ...] | None:
    """The names in a text such as `M, L`; None, which means all of them, where there is no text."""
    return None if text is None else tuple(name.strip() for name in text.split(",") if name.strip())


def styles_in(texts: Sequence[str]) -> dict[str, str]:
    """Styles from texts such as `sleeve_length=30cm`. Raises `RequestError` for any other, and for one given twice."""
    styles: dict[str, str] = {}
    for text in texts:
        name, equals, value = (part.strip() for part in text.partition("="))
        if not (name and equals and value):
            raise RequestError(f"`--style {text}` is not NAME=VALUE, as in `--style sleeve_length=30cm`")
        if name in styles:
            raise RequestError(f"`--style {name}=...` is given twice: take one of the two out")
        styles[name] = value
    return styles
