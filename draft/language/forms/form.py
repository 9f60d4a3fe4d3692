"""The record of one form of a piece file."""

from __future__ import annotations

from draft.base.record import dataclass


@dataclass(frozen=True)
class Form:
    """One form of the language: how it is written, what it says, an example.

    Words in capitals stand for what the designer writes; what stands in brackets may be left out. `inside` is the block
    that the example stands in, empty for a block of its own.
    """

    name: str
    form: str
    words: str
    example: str
    inside: str = ""
