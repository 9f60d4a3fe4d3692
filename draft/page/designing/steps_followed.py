"""A book read by who follows it: each example of it, and the file as its reader then has it before her."""

from __future__ import annotations

import re
from collections.abc import Iterator

from draft.base.record import dataclass
from draft.page.designing.merging import merged

FENCE = re.compile(r"^```(\w+)(?: (\w+))?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
HEADING = re.compile(r"^## (.*)$", re.MULTILINE)


@dataclass(frozen=True)
class Block:
    """One fenced block: where its text lies in the tutorial, and under which heading.

    `piece` is merged into the file, `piece whole` replaces it, `piece mistake` and `piece yours` are tried on the
    file as it stands and taken back; `text notes` and `text walk` quote what is then said.
    """

    heading: str
    language: str
    purpose: str
    text: str
    start: int
    end: int


def blocks(tutorial: str) -> Iterator[Block]:
    """The blocks in their order."""
    headings = [(found.start(), found[1]) for found in HEADING.finditer(tutorial)]
    for found in FENCE.finditer(tutorial):
        heading = [name for at, name in headings if at < found.start()]
        if found[1] in ("piece", "text"):
            yield Block(heading[-1] if heading else "", found[1], found[2] or "", found[3], *found.span(3))


@dataclass(frozen=True)
class State:
    """The reader's file after a block, and the block."""

    block: Block
    file: str


def states(tutorial: str) -> Iterator[State]:
    """Every block with the file as it then stands; what is only tried is taken back at the next block of the file."""
    kept = shown = ""
    for block in blocks(tutorial):
        if block.language == "piece":
            shown = block.text if block.purpose == "whole" else merged(kept, block.text)
            if block.purpose in ("", "whole"):
                kept = shown
        yield State(block, shown)
