"""Whether one word was meant where another stands: words that merely look alike mislead whoever is offered them."""

from __future__ import annotations

import re

LETTERS_A_SLIP = 4
"""A slip of the fingers in so many letters is one; a word with more was not misspelt, but is another."""
_LEAST = 2  # letters of a beginning that tells


def may_be_meant(written: str, other: str) -> bool:
    """Whether a word is another with a few slips in it, the beginning of it, or has one of its parts."""
    if _PARTS.findall(written) and set(_PARTS.findall(written)) & set(_PARTS.findall(other)):
        return True
    if min(len(written), len(other)) >= _LEAST and (written.startswith(other) or other.startswith(written)):
        return True
    return slips(written.lower(), other.lower()) <= max(1, max(len(written), len(other)) // LETTERS_A_SLIP)


_PARTS = re.compile(r"[^\W\d_]{3,}")


def slips(written: str, other: str) -> int:
    """The least count of letters left out, put in, mistaken or swapped with the next that makes one word the other."""
    two_up: list[int] = []
    above = list(range(len(other) + 1))
    for row, letter in enumerate(written, 1):
        here = [row]
        for column, its in enumerate(other, 1):
            here.append(min(above[column] + 1, here[-1] + 1, above[column - 1] + (letter != its)))
            if row > 1 and column > 1 and (written[row - 2], letter) == (its, other[column - 2]):
                here[-1] = min(here[-1], two_up[column - 2] + 1)
        two_up, above = above, here
    return above[-1]
