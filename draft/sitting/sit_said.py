"""A sentence about a garment on a form: a key and what is filled in there, for words in any language."""

from __future__ import annotations

from draft.base.record import dataclass
from draft.toile.why_not import Filled


@dataclass(frozen=True)
class Said:
    """One sentence: its key in the section `sit` of a language, and what is filled in.

    What is filled in are mm (`mm_...`), shares (`share_...`), counts (`count_...`), names that a language has
    (`name_...`), or words that stay as they are (`plain_...`).
    """

    key: str
    figures: tuple[tuple[str, Filled], ...] = ()
    advice: bool = False


def said(key: str, **figures: Filled) -> Said:
    """A sentence with its figures."""
    return Said(key, tuple(figures.items()))


def advised(key: str, **figures: Filled) -> Said:
    """A sentence of advice with its figures."""
    return Said(key, tuple(figures.items()), advice=True)
