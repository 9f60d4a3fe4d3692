"""Tables in plain text, as a terminal shows them."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.visible import columns, visible


def in_columns(rows: Sequence[Sequence[str]]) -> str:
    """Rows of cells, each column as wide as its longest cell."""
    rows = [[visible(cell) for cell in row] for row in rows]
    widths = [max(map(columns, column)) for column in zip(*rows, strict=True)]
    lines = [
        "  ".join(cell + " " * (width - columns(cell)) for cell, width in zip(row, widths, strict=True)) for row in rows
    ]
    return "\n".join(line.rstrip() for line in lines)
