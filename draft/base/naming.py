"""How notes name the bodies that a fact is true for, and quote what was written."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

SIZE_CODE = re.compile(r"\d+|\d*X*[SML](?:/\d*X*[SML])?")
"""What tells a size from a person's name: `M`, `2XL`, `XS/S`, `42`."""

SHOWN_BODIES = 8  # a note about more bodies than this gives their number instead of their names


def listed(names: tuple[str, ...], mask: NDArray[np.bool_]) -> str:
    """The bodies of a mask in words: their names, or their number where there are many."""
    chosen = [name for name, there in zip(names, mask, strict=True) if there]
    if len(chosen) > SHOWN_BODIES:
        return f"{len(chosen)} of {len(names)} bodies"
    word = ("size " if len(chosen) == 1 else "sizes ") if all(SIZE_CODE.fullmatch(name) for name in chosen) else ""
    return word + ", ".join(chosen)


def and_list(names: Sequence[str], and_: str = " and ") -> str:
    """`bust, waist and hip`, with the word between the last two as it is given, its spaces included."""
    return and_.join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)


def shortened(text: str) -> str:
    """A text from a file as messages quote it: in backticks and never long."""
    return f"`{text}`" if len(text) <= 40 else f"`{text[:37]}...`"


def plain(name: str) -> str:
    """A name of the language as it is said: `upper arm`."""
    return name.replace("_", " ")
