"""What may lie in an envelope, by its name: plain files in one folder that every system can hold side by side."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from draft.base.output_names import is_device

CONTENTS = "contents.toml"
"""The list of what an envelope holds, and the first thing in it."""
ENDINGS = (".piece", ".csv", ".toml", ".svg")
"""Patterns and templates; charts; cloths, translations and the studio; pictures."""
_REFUSED = set('<>:"|?*/\\')
_LONGEST = 200
"""Bytes of a name: systems take 255."""


def wrong_name(name: str) -> str:
    """Why nothing in an envelope may be called so, as the end of a sentence; nothing of a name that may be."""
    if "/" in name or "\\" in name:
        return "leads to another folder"
    if any(unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp") for letter in name):
        return "holds letters that cannot be seen"
    if not name or name.startswith(".") or name[-1:] in (".", " ") or _REFUSED & set(name) or is_device(name):
        return "cannot stand on every system"
    if unicodedata.normalize("NFC", name) != name:
        return "is not written in the usual form of its letters (NFC)"
    if len(name.encode()) > _LONGEST:
        return f"is longer than {_LONGEST} bytes"
    if not name.endswith(ENDINGS):
        return f"is none of {', '.join(ENDINGS)}"
    return ""


def alike(names: Iterable[str]) -> tuple[str, str] | None:
    """The first two names that fall together where letters have no case, or in their compatible forms."""
    seen: dict[str, str] = {}
    for name in names:
        plain = unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", name).casefold())
        if plain in seen:
            return seen[plain], name
        seen[plain] = name
    return None
