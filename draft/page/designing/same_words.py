"""Whether two texts say the same: remarks, empty rows and what stands behind a row's last word are of no matter.

While somebody writes a remark nothing is read, planned or drafted: the lines stay as they are, until her hand rests.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

_SAID = re.compile(r'(?:[^"#]|"[^"]*"?)*')
"""A row up to its remark; a `#` within a quoted text begins none."""


def same_words(before: str, after: str) -> bool:
    """Whether the rows of two texts are alike but for remarks and empty rows, and hold nothing that no text may."""
    old, new = before.split("\n"), after.split("\n")
    least, alike = min(len(old), len(new)), 0
    while alike < least and old[alike] == new[alike]:
        alike += 1
    below = 0
    while below < least - alike and old[-1 - below] == new[-1 - below]:
        below += 1
    were, are = old[alike : len(old) - below], new[alike : len(new) - below]
    return "".join(are).isprintable() and _said(were) == _said(are)


def _said(rows: Iterable[str]) -> list[str]:
    said = ((found[0] if (found := _SAID.match(row)) else row).rstrip() for row in rows)
    return [row for row in said if row]
