"""What is bought besides the cloth, in words: how many of each, and how long in which size."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from draft.garment.garment import Join
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.stages import Sentence, staged
from draft.seams.bought import Bought, bought
from draft.seams.joins_in_order import has_zip


def notions_said(facts: BookletFacts) -> list[str]:
    """A line for each notion."""
    return [_said(line, facts) for line in bought(facts.garment)]


def names_thread(facts: BookletFacts) -> bool:
    """Whether the designer says what thread is to be bought."""
    return any("thread" in notion.name.split("_") for notion in facts.garment.notions)


def sewn_in(use: str, facts: BookletFacts, key: str = "sewn_in", **fields: str) -> list[Sentence]:
    """Tape and the like that is sewn into a seam or onto a hem; what closes or fastens it has steps of its own."""
    names = [
        facts.wording.named(notion.name)
        for notion in facts.garment.notions
        if use in notion.uses and not _closes(use, facts.garment.joins)
    ]
    return [staged(key, facts, notions=facts.wording.listed(names), **fields)] if names else []


def _closes(use: str, joins: Sequence[Join]) -> bool:
    """Whether a seam has a zip, so that what is bought for it is that."""
    return any(has_zip(join) for join in joins if join.name == use)


def is_taped(facts: BookletFacts, join: str) -> bool:
    """Whether a notion is for a seam."""
    return any(join in notion.uses for notion in facts.garment.notions)


def _said(line: Bought, facts: BookletFacts) -> str:
    say, name = facts.wording.say, facts.wording.named(line.name)
    if line.sort:
        zipper = say("material.zip_lapped" if line.sort == "lapped zip" else "material.zip_invisible")
        what = say("material.notions_zip", count=_counts(line, facts), name=zipper, lengths=_lengths(line, facts))
    elif line.count is not None:
        what = say("material.notions_count", count=_counts(line, facts), name=name)
    elif line.length is not None:
        what = say("material.notions_length", name=name, lengths=_lengths(line, facts))
    else:
        what = name
    return say("material.notions_words", what=what, words=facts.wording.named(line.words)) if line.words else what


def _counts(line: Bought, facts: BookletFacts) -> str:
    """`7`, or `6 for XS – S and 7 for M – XL`."""
    assert line.count is not None
    counts = line.count[list(facts.bodies)]
    return by_size([facts.wording.number(float(count), 0) for count in counts], facts)


def _lengths(line: Bought, facts: BookletFacts) -> str:
    assert line.length is not None
    lengths = line.length[list(facts.bodies)]
    said = facts.wording.length if line.sort else facts.wording.length_bought  # zips come in lengths of their own
    return by_size([said(float(length)) for length in lengths], facts)


def by_size(said: list[str], facts: BookletFacts) -> str:
    """What all sizes have, or each run of sizes that have the same."""
    if len(set(said)) == 1:
        return said[0]
    parts = []
    for text, run in groupby(zip(said, facts.sizes, strict=True), key=lambda pair: pair[0]):
        sizes = [size for _, size in run]
        named = sizes[0] if len(sizes) == 1 else f"{sizes[0]} – {sizes[-1]}"
        parts.append(facts.wording.say("material.notions_each", length=text, sizes=named))
    return facts.wording.listed(parts)
