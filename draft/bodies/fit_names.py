"""What sizes and people may be called: their names become file names, layers and labels."""

from __future__ import annotations

import unicodedata

LONGEST = 60  # with a pattern's name and an ending this stays under the 255 bytes of common file systems


def unfit_name(name: str) -> str | None:
    """Why `name` cannot name a size or a person, as the end of a sentence about it; None if it can."""
    if not name.strip():
        return "is empty"
    if len(name) > LONGEST:
        return f"is longer than {LONGEST} characters"
    if any(unicodedata.category(c)[0] == "C" or c in "\u2028\u2029" for c in name):
        return "holds a control character"
    if found := sorted(set(name) & set('/\\:*?"<>|')):
        return f"holds `{found[0]}`, which not every file name can hold"
    if name.startswith((".", "-")) or name.endswith("."):
        return "begins or ends with a mark that a file name should not"
    return None
