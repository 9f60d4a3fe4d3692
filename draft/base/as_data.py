"""Figures and notes as plain data, for a program to read: lengths in mm, shares in percent, angles in degrees.

The unit of a figure stands in its key: `ease_mm`, `stretch_percent`, `kink_deg`. What is not known is null.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, SupportsFloat, TypeAlias

from draft.base.notes import Note, Span
from draft.base.units import Kind, settled

Data: TypeAlias = dict[str, Any]


def mm(value: SupportsFloat) -> float | None:
    """A length in mm, to a hundredth."""
    return _figure(float(value), 2)


def percent_of(share: SupportsFloat) -> float | None:
    """A share in percent, to a hundredth."""
    return _figure(100 * float(share), 2)


def degrees(value: SupportsFloat) -> float | None:
    """An angle of so many degrees, to a hundredth."""
    return _figure(float(value), 2)


def _figure(value: float, places: int) -> float | None:
    return round(settled(value), places) + 0.0 if math.isfinite(value) else None


def of_kind(name: str, value: SupportsFloat, kind: Kind) -> Data:
    """A figure under a key that says its unit: `name_mm`, `name_deg`, `name_percent`."""
    number = float(value)
    if kind is Kind.LENGTH:
        return {f"{name}_mm": mm(number)}
    if kind is Kind.ANGLE:
        return {f"{name}_deg": degrees(math.degrees(number))}
    return {f"{name}_percent": percent_of(number)}


def by_size(sizes: Sequence[str], values: Iterable[SupportsFloat]) -> dict[str, float | None]:
    """Lengths in mm by the sizes or people that they are of."""
    return dict(zip(sizes, map(mm, values), strict=True))


def note_data(note: Note) -> Data:
    """A note: what it is, where, and what to do about it."""
    related = [{"words": words, **_place(span)} for span, words in note.related]
    said: Data = {"severity": note.severity.value, "message": note.message, **_place(note.span)}
    return {**said, "fixes": list(note.hints), "related": related}


def _place(span: Span | None) -> Mapping[str, object]:
    if span is None:
        return {"file": None, "line": None, "column": None}
    line, column = span.source.place(span.start)
    return {"file": span.source.place_name, "line": line, "column": column}


def json_bytes(data: Data) -> bytes:
    """Data as a program reads them: JSON in UTF-8, on lines, no figure of it infinite."""
    text = json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False)
    return (text + "\n").encode("utf-8", "backslashreplace")
