"""Which blocks a line stands in, told from indents alone, so that it also serves a text that cannot be read."""

from __future__ import annotations

from dataclasses import dataclass

from draft.language.shape import depth, says_nothing


@dataclass(frozen=True)
class Place:
    """The lines that a place stands under, outermost first, and what stands before it on its own line."""

    above: tuple[str, ...]
    before: str

    @property
    def block(self) -> str:
        """The word that heads the innermost block."""
        return self.above[-1].split()[0] if self.above else ""

    @property
    def owner(self) -> str:
        """`piece front` or `template half_top` where the place stands in one, else an empty text."""
        words = self.above[0].split() if self.above else []
        return " ".join(words[:2]) if len(words) > 1 and words[0] in ("piece", "template") else ""


def place(text: str, offset: int) -> Place:
    """The place at an offset of a text."""
    start = text.rfind("\n", 0, offset) + 1
    before = text[start:offset]
    inside = depth(before) if before.strip() else len(before)
    above: list[str] = []
    for line in reversed(text[:start].split("\n")[:-1]):
        if not inside:
            break
        if not says_nothing(line) and depth(line) < inside:
            above.insert(0, line.split("#")[0].strip())
            inside = depth(line)
    return Place(tuple(above), before.lstrip())
