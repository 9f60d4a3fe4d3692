"""A piece that came out as it was before is the piece from before.

What is drawn of a piece is kept for the piece itself; so after a change to one style only the pieces that it changes
are drawn again.
"""

from __future__ import annotations

import hashlib
from dataclasses import field, fields, is_dataclass, replace
from functools import cache, lru_cache
from typing import Any

import numpy as np

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.garment import Garment, Piece

_MOST = 256
"""Pieces remembered: ten in some twenty states of a draft."""
_BODIES = 60
"""A chart's sizes; a study's thousands are drafted once."""


def as_before(garment: Garment) -> Garment:
    """The garment with each piece that is the same to the last bit as one from before, places in the text too."""
    return replace(garment, pieces=tuple(_kept(_Known.of(p)) if _few(p) else p for p in garment.pieces))


def content_of(piece: Piece) -> tuple[Any, ...]:
    """All that a piece holds but the places in the text: what is drawn alike is alike."""
    arrays = hashlib.blake2b(digest_size=32)
    return (*(part for part in _content(piece, arrays) if not isinstance(part, Span)), arrays.digest())


def _few(piece: Piece) -> bool:
    return all(len(edge.segments) <= _BODIES for edge in piece.edges)


@dataclass(frozen=True)
class _Known:
    """A piece that equals another by all that it holds."""

    content: tuple[Any, ...]
    piece: Piece = field(compare=False)

    @classmethod
    def of(cls, piece: Piece) -> _Known:
        arrays = hashlib.blake2b(digest_size=32)
        return cls((*_content(piece, arrays), arrays.digest()), piece)


@lru_cache(maxsize=_MOST)
def _kept(known: _Known) -> Piece:
    return known.piece


def _content(part: Any, arrays: Any) -> list[Any]:
    """What there is in a record, an array by its shape and kind; the bytes of arrays go into a digest."""
    found = list[Any]()
    _add(part, arrays, found)
    return found


def _add(part: Any, arrays: Any, found: list[Any]) -> None:
    if isinstance(part, np.ndarray):
        arrays.update(np.ascontiguousarray(part).tobytes())
        found.append((part.shape, part.dtype.str))
    elif isinstance(part, tuple):
        found.append(len(part))
        for inner in part:
            _add(inner, arrays, found)
    elif (names := _names(part.__class__)) is not None:
        for name in names:
            _add(getattr(part, name), arrays, found)
    else:
        found.append(part)


@cache
def _names(kind: Any) -> tuple[str, ...] | None:
    """What a record of this kind holds; None of what is no record, or a place in the text."""
    if kind is Span or not is_dataclass(kind):
        return None
    return tuple(each.name for each in fields(kind))
