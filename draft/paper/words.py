"""Every word that is printed, in one place: English, in the maker's terms."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from draft.piece import Edge, Piece
from draft.units import in_centimetres, in_inches

LANGUAGE = "en"

PLACE_ON_FOLD = "place on fold"
GRAIN = "grain"
STRETCH = "greatest stretch"

_SIZE_CODE = re.compile(r"\d+|\d*X*[SML](?:/\d*X*[SML])?")
_SAME = 0.05
"""Allowances within this many mm are one allowance: far below what a maker can cut."""


def sentence(text: str) -> str:
    """The text with a capital at its beginning."""
    return text[:1].upper() + text[1:]


def both_units(mm: float) -> str:
    """`1/2 in (1.3 cm)`."""
    return f"{in_inches(mm)} ({in_centimetres(mm)})"


def sizes(names: Sequence[str]) -> str:
    """`Size M`, `Sizes XS – 3XL`, or a person's name as it is."""
    if len(names) == 1:
        return f"Size {names[0]}" if _SIZE_CODE.fullmatch(names[0]) else names[0]
    return f"Sizes {names[0]} – {names[-1]}" if names else ""


def cut(piece: Piece) -> str:
    """`Cut 1 on fold` or `Cut 2`."""
    return f"Cut {piece.cut} on fold" if piece.on_fold else f"Cut {piece.cut}"


def allowances(piece: Piece) -> tuple[str, ...]:
    """What lies outside the sewing line, read off the edges: the common allowance, then the edges that differ."""
    edges = [edge for edge in piece.edges if not edge.on_fold]
    if not edges:
        return ()
    common = Counter(_rounded(edge) for edge in edges).most_common(1)[0][0]
    others = [edge for edge in edges if _rounded(edge) != common]
    return (_common_words(common), *_other_words(others))


def _rounded(edge: Edge) -> int:
    return round(edge.allowance / _SAME)


def _common_words(steps: int) -> str:
    mm = steps * _SAME
    return f"{both_units(mm)} seam allowance included" if steps else "no seam allowance included"


def _other_words(edges: Sequence[Edge]) -> tuple[str, ...]:
    groups: dict[int, list[str]] = {}
    for edge in edges:
        groups.setdefault(_rounded(edge), []).append(edge.name.replace("_", " "))
    return tuple(
        f"{' and '.join(names)} {both_units(steps * _SAME) if steps else 'none'}" for steps, names in groups.items()
    )
