"""Which blocks a line stands in, told from indents alone, so that it also serves a text that cannot be read."""

from __future__ import annotations

from draft.base.record import dataclass
from draft.language.going_on import heads
from draft.language.indents import depth, says_nothing


@dataclass(frozen=True)
class Surroundings:
    """The lines that a place stands under, outermost first, and what stands before it on its own line.

    Where the line has several rows, they are set in one.
    """

    above: tuple[str, ...]
    before: str

    @property
    def block(self) -> str:
        """The word that heads the innermost block."""
        return next(iter(self.above[-1].split()), "") if self.above else ""  # a row may hold but a form feed

    @property
    def owner(self) -> str:
        """`piece front` or `template half_top` where the place stands in one, else an empty text."""
        words = self.above[0].split() if self.above else []
        return " ".join(words[:2]) if len(words) > 1 and words[0] in ("piece", "block", "template") else ""


def surroundings(text: str, offset: int) -> Surroundings:
    """The place at an offset of a text."""
    rows = text[:offset].split("\n")
    head = heads(f"{text[:offset]}x")[-1]  # as if a word were begun here
    before = (
        " ".join(part.split("#")[0].strip() for part in rows[head:-1])
        + " " * (head + 1 < len(rows))
        + rows[-1].lstrip()
    )
    inside = depth(rows[head]) if rows[head].strip() else len(rows[head])
    above: list[str] = []
    for line in reversed(rows[:head]):
        if not inside:
            break
        if not says_nothing(line) and depth(line) < inside:
            above.insert(0, line.split("#")[0].strip())
            inside = depth(line)
    return Surroundings(tuple(above), before)
