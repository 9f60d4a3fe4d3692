"""What people write where a point or an edge is laid, and how it is said."""

from __future__ import annotations

import re

from draft.base.ending import ending

_MEETS = "POINT on POINT"
_FACES = "POINT towards POINT"


def laid_slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for `word` where it is said how paper is laid; or none."""
    if word == "laid" and "FOLLOWING" in expected:
        return ("try `following laid`",)
    if not re.search(r"\blaid\b", before):
        return ()
    if ending(r"\blaid\s+mirrored\s*$", before):
        what = re.match(r"[\w.]+", rest)
        return (f"`mirrored` stands behind what is laid: `laid {what[0] if what else ''} mirrored`",)
    if "COLON" in expected and "MIRRORED" in expected:
        return ("try `:` in its place",) if word == "," else (f"write `: {_MEETS}, {_FACES}` behind it",)
    return ("try `,` in its place",) if word == "and" and expected <= {"COMMA", "DOT"} else ()


def laid_too_soon(written: str, expected: set[str]) -> tuple[str, ...]:
    """A fix for a line that ends before it says how paper is laid; or none."""
    found = re.search(r"\blaid\s+[\w.]+(\s+mirrored)?(\s+on\b)?", written)
    if not found or not expected & {"COMMA", "COLON", "TOWARDS"}:
        return ()
    if "COLON" in expected:
        return (f"say how it lies: `: {_MEETS}`" if found[2] else f"say how it lies: `: {_MEETS}, {_FACES}`",)
    return (f"say which way it faces: `, {_FACES}`",)
