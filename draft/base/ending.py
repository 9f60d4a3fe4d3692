"""What a line ends with, found as soon in a line of a million letters as in any other."""

from __future__ import annotations

import re

LOOK = 400
"""Letters: more than a few of the longest names, and what may stand between them."""


def ending(pattern: str, text: str) -> re.Match[str] | None:
    """What of a text's last `LOOK` letters a pattern that ends in `$` matches; a match's places are within these.

    A search through the whole text begins anew at every letter, which takes the square of its length.
    """
    return re.search(pattern, text[-LOOK:])
