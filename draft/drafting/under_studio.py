"""A plan under the name of the studio that its folder has: the studio says what the pattern does not say itself.

What is written in the designer's own files is the pattern's own. What a pattern inherits of a bundled one gives way to
the studio: who publishes a variation does so under her own name. A bundled one is known by its name, as in an envelope
it lies beside the others.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from draft.language import tree
from draft.plan.library import Texts, bundled_files
from draft.plan.plan import Plan
from draft.studio.studio import Studio


def under_studio(plan: Plan, texts: Texts, studio: Studio | None) -> Plan:
    """The plan with maker, licence and link of the studio where no file of the designer's own has them."""
    if studio is None:
        return plan
    own = set(_own_words(texts))
    booklet = replace(
        plan.booklet,
        licence=plan.booklet.licence if "licence" in own else studio.licence or plan.booklet.licence,
        link=plan.booklet.link if "link" in own else studio.link or plan.booklet.link,
    )
    return replace(plan, maker=plan.maker if "maker" in own else studio.name, booklet=booklet)


def _own_words(texts: Texts) -> Iterator[str]:
    """What the designer's own files say of the pattern, by the words of their settings."""
    bundled = bundled_files()
    one: Texts | None = texts
    while one:
        if one is texts or Path(one.main.span.source.name).stem not in bundled:
            yield from (setting.word for head in one.main.patterns for setting in head.settings)
            yield from (line.word for line in one.main.booklet if isinstance(line, tree.Setting))
        one = one.base
