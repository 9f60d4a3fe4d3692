"""What people write otherwise where a pattern says what is bought and how it is sewn, and what they mean."""

from __future__ import annotations

import re

from draft.base.ending import ending

_HEADS = ("title", "maker", "chart", "uses", "version", "changed", "edition", "text", "licence", "link", "picture")
_PLACES = {
    **dict.fromkeys(("behind", "following", "past"), "after"),
    **dict.fromkeys(("ahead", "until"), "before"),
    **dict.fromkeys(("instead", "replacing", "for"), "instead of"),
}


def notion_slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for what follows the name of something that is bought, where that cannot be read; or none."""
    name = re.match(r"\s+([A-Za-z]\w*)\s+(.*)$", before)
    if not name or name[1] in _HEADS or expected - {"STRING", "_NL", "FOR"} or not rest.strip():
        return ()
    if name[2].strip() in ("to", "of"):
        return (f"say what it is for: `{name[1]} for {word}`",)
    if word == "for":
        return ("give one of the two: how much it is, or what it is for",)
    return ()


def step_slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for `word` in a line about a step or a topic of the booklet; or none."""
    if re.match(r"\s+about\s*$", before) and word.startswith('"'):
        return (f"say what it is about first: `about care {rest.strip()}`",)
    if not re.match(r"\s+step\b", before):
        return ()
    if "PLACED" in expected and word in _PLACES:
        return (f"try `{_PLACES[word]}`",)
    if found := re.match(r"((?:after|before|instead\s+of)\s+[\w.]+)", rest):
        return (f"write `{found[1]}` before the words",) if '"' in before else ()
    return ("name the step beside which it comes",) if ending(r"\b(after|before|of)\s*$", before) else ()


def use_slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for `word` where a join says what it is left open for; or none."""
    if not ending(r",\s*open\b[^,]*$", before):
        return ()
    if ending(r"\bopen\b[^,]*\bfor\b[^,]*$", before) and word.startswith("on "):
        return (f"write `{word}` before `for`",)
    if "OPEN_FOR" not in expected or word != "for":
        return ()
    if re.match(r"for\s+(?:an?\s+)?(?:zip|zipper|fly)\b", rest):
        return ("say which zip: `for a lapped zip` or `for an invisible zip`",)
    return ("try `for a slit`, `for turning`, `for a lapped zip` or `for an invisible zip`",)
