"""Why something cannot be dressed or may not be shown: a key and what is filled in, for words in any language."""

from __future__ import annotations

from typing import TypeAlias

from draft.base.record import dataclass

Filled: TypeAlias = float | str | tuple[str, ...]
"""mm (`mm_...`), a count (`count_...`), or names of pieces and seams as a pattern gives them (`name_...`)."""


@dataclass(frozen=True)
class Why:
    """A reason or a caution: its key in the section `sit` of a language, and what is filled in there."""

    key: str
    figures: tuple[tuple[str, Filled], ...] = ()

    def __str__(self) -> str:
        return " ".join([self.key, *(f"{name}={figure}" for name, figure in self.figures)])


def why(key: str, **figures: Filled) -> Why:
    """A reason with what is filled in."""
    return Why(key, tuple(figures.items()))


class CannotDress(Exception):  # noqa: N818 - it reads as a sentence
    """What is asked for cannot be dressed; `why` says the reason."""

    def __init__(self, key: str, **figures: Filled) -> None:
        self.why = why(key, **figures)
        super().__init__(str(self.why))
