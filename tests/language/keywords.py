"""The words that the grammar uses, read off its own text."""

from __future__ import annotations

import re

from tests.project.checkout import ROOT


def keywords() -> set[str]:
    """The words that stand in quotes in the grammar, and those of its tokens of several words."""
    grammar = re.sub(r"//.*", "", (ROOT / "grammar" / "piece.lark").read_text(encoding="utf-8"))
    tokens = re.findall(
        r"^(?:AT_LEAST|AT_MOST|CUT_AS|AS_LAYER|ON_SIDE|_HALF|_THIRD|_QUARTER|_ROUND|_RADIUS|OPEN_FOR|PLACED)\S*: (.*)$",
        grammar,
        re.MULTILINE,
    )
    assert len(tokens) == 12
    within = {word for token in tokens for word in re.findall(r"[a-z]+", re.sub(r"\\.", "", token))}
    return set(re.findall(r'"([a-z]+)"', grammar)) | within
