"""Places of a text as a browser counts them: in units of UTF-16, where a rare letter is two."""

from __future__ import annotations

from bisect import bisect_right
from itertools import accumulate
from typing import Any

from draft.base.notes import Source, Span


def to_browser(text: str, offset: int) -> int:
    """The browser's offset of a place."""
    return offset if text.isascii() else len(text[:offset].encode("utf-16-le", "surrogatepass")) // 2


def from_browser(text: str, offset: object) -> int:
    """The place at a browser's offset; within the text, whatever was given."""
    given = offset if isinstance(offset, int) else 0
    if text.isascii():
        return max(0, min(given, len(text)))
    cut = text.encode("utf-16-le", "surrogatepass")[: max(0, given) * 2]
    return len(cut.decode("utf-16-le", "ignore"))


class Lines:
    """Where stretches of one text lie, each looked up quickly; those of other texts are told by their file."""

    def __init__(self, source: Source) -> None:
        self._source = source
        self._ends = list(accumulate(len(row) + 1 for row in source.text.split("\n")))

    def of(self, span: Span) -> dict[str, Any]:
        """`start`, `end` and `line` in the text, or the `file` and the `line` in that."""
        if span.source is not self._source and span.source != self._source:
            return {"file": span.source.name, "line": span.source.text.count("\n", 0, span.start) + 1}
        line = bisect_right(self._ends, span.start) + 1
        text = self._source.text
        return {"line": line, "start": to_browser(text, span.start), "end": to_browser(text, span.end)}
