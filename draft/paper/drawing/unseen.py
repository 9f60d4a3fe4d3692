"""Letters without ink, for words that are drawn as outlines: a font of nothing that says what its codes stand for.

It has no outlines of anybody's. A letter's code is the lower byte of its number in Unicode, and there is a face for
each upper byte, so that a page is written before it is known what the document says.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Any

from draft.paper.drawing.embedded import to_unicode

LAST = 0xFFFF
"""Letters with larger numbers have no code; what they say stands beside them."""
_NAME = "unseen"


def face_of(letter: str) -> str:
    """The name of the face that a letter is of."""
    return f"{_NAME}{ord(letter) >> 8:02x}"


def is_unseen(face: str) -> bool:
    """Whether a face is one of these."""
    return face.startswith(_NAME)


def codes(letters: Iterable[str]) -> str:
    """Letters of one face as hexadecimal codes."""
    return "".join(f"{ord(letter) & 0xFF:02x}" for letter in letters)


def unseen(pdf: Any, letters: Collection[str]) -> Any:
    """Letters of one face as a font object of a `pikepdf.Pdf`, each an em wide (ISO 32000-1, 9.6.5: type 3)."""
    from pikepdf import Array, Dictionary, Name

    used = {ord(letter) & 0xFF: letter for letter in sorted(letters)}
    first, last = min(used), max(used)
    blank = pdf.make_indirect(pdf.make_stream(b"1000 0 0 -200 1000 800 d1"))
    names = {code: f"/u{ord(letter):04x}" for code, letter in used.items()}
    differences = Array([part for code, name in sorted(names.items()) for part in (code, Name(name))])
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font, Subtype=Name.Type3, FontBBox=[0, -200, 1000, 800], FontMatrix=[0.001, 0, 0, 0.001, 0, 0],
            CharProcs=Dictionary(dict.fromkeys(names.values(), blank)), Resources=Dictionary(),
            Encoding=Dictionary(Type=Name.Encoding, Differences=differences), FirstChar=first, LastChar=last,
            Widths=[1000 if code in used else 0 for code in range(first, last + 1)],
            ToUnicode=pdf.make_stream(to_unicode(used, digits=2)),
        )
    )  # fmt: skip
