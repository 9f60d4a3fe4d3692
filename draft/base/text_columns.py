"""Tables in plain text, as a terminal shows them."""

from __future__ import annotations

from collections.abc import Sequence


def in_columns(rows: Sequence[Sequence[str]]) -> str:
    """Rows of cells, each column as wide as its longest cell."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in rows]
    return "\n".join(line.rstrip() for line in lines)
