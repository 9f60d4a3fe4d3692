"""A garment for some of its bodies: the same records, with those rows of every array."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np

from draft.base.arrays import Ints
from draft.base.notes import Span
from draft.garment.garment import Garment


def of_bodies(garment: Garment, rows: Ints) -> Garment:
    """The garment for the bodies with the numbers `rows` `(n,)`, in that order; what is one for all stays."""
    made = {part.name: _chosen(getattr(garment, part.name), rows) for part in fields(garment) if part.name != "sizes"}
    return replace(garment, sizes=tuple(garment.sizes[k] for k in rows.tolist()), **made)


def _chosen(part: Any, rows: Ints) -> Any:
    if isinstance(part, np.ndarray):
        return part[rows]
    if isinstance(part, tuple):
        return tuple(_chosen(inner, rows) for inner in part)
    if not is_dataclass(part) or isinstance(part, type | Span):
        return part
    return replace(part, **{inner.name: _chosen(getattr(part, inner.name), rows) for inner in fields(part)})
