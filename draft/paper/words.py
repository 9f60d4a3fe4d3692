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
    """`Cut 1 on fold`, `Cut 2`, `Cut 2 as a mirrored pair` or `Cut 1, right side up`."""
    if piece.cut_as == "as a pair":
        return f"Cut {piece.cut} as {'a mirrored pair' if piece.cut == 2 else 'mirrored pairs'}"
    turned = ", right side up" if piece.cut_as == "right side up" else ""
    return f"Cut {piece.cut}{' on fold' if piece.on_fold else ''}{turned}"


def gather(mm: float | None) -> str:
    """`gather to 8 in (20.3 cm)`, or the word alone where each size has a length of its own."""
    return "gather" if mm is None else f"gather to {both_units(mm)}"


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


TEST_INCH = "1 in"
TEST_METRIC = "5 cm"
KEY = "Cut along the line of your size"

GUIDE_TITLE = "Print and put together"
MEASURE = "Measure a square before you print the rest."
MAP = "How the pages lie"
CONTENTS = "Pieces"

TRIM = "cut off this margin: page {page} joins here"
UNDER = "page {page} is laid over this margin"


def sheet_title(title: str, sizes: str) -> str:
    """`Easy knit top, sizes XS – 3XL`."""
    rest = sizes[:1].lower() + sizes[1:] if sizes.startswith("Size") else sizes
    return ", ".join(part for part in (title, rest) if part)


def page_position(page: int, count: int, row: int, column: int) -> str:
    """`Page 5 of 17 · row 2, column 3`."""
    return f"Page {page} of {count} · row {row}, column {column}"


def steps(first: int, last: int, join: str, many: bool) -> tuple[tuple[str, str], ...]:
    """How to print and assemble, each step as a few words and what they mean; `join` is the name of one join."""
    found = [
        ("Print at 100 %", "In the print window choose “actual size” or 100 %. Turn off “fit to page”."),
        ("Measure first", "Print this page alone and measure a square. It must be exactly 1 in or 5 cm wide. If not, "
         "change the print settings before you print the rest."),
        ("Print the rest", f"Pages {first} to {last}, on one side of the paper."),
        ("Trim", "Cut off the right and the bottom margin along the frame where another page follows. Leave the left "
         "and the top margin: the next page covers them."),
        ("Tape", f"Lay each cut edge on the frame of its neighbour. Two halves that belong together close to one mark "
         f"and bear the same name, such as {join}."),
    ]  # fmt: skip
    if many:
        found.insert(
            1,
            (
                "Choose sizes",
                "Some viewers have a list of layers: there you can switch off the sizes that you do not need.",
            ),
        )
    return tuple(found)
