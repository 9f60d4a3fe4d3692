"""Letters without ink, for words that are drawn as outlines: a font of one glyph, and what its codes stand for.

It is of nobody's making, and set so that it is not inked (ISO 32000-1, 9.3.6: mode 3). A letter's code is its number
in Unicode, so that a page is written before it is known what the document says; all codes that are used lead to the one
glyph, which is embedded with its width as ISO 14289-1, 7.21 asks.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from pathlib import Path
from typing import Any

from draft.paper.drawing.embedded import to_unicode

LAST = 0xFFFD
"""Letters with larger numbers have no code; what they say stands beside them."""
FACE = "unseen"
_FILE = Path(__file__).parent.parent / "font" / "PlainseamUnseen.ttf"
_BLANK = 1
"""The number of the glyph; 0 is for letters that a font lacks, and is not to be shown."""
_SYMBOLIC = 4


def codes(letters: Iterable[str]) -> str:
    """Letters as hexadecimal codes."""
    return "".join(f"{ord(letter):04x}" for letter in letters)


def unseen(pdf: Any, letters: Collection[str]) -> Any:
    """The letters as a font object of a `pikepdf.Pdf`, each an em wide (ISO 32000-1, 9.7.4: CIDFonts of type 2)."""
    from pikepdf import Array, Dictionary, Name, String

    used = {ord(letter): letter for letter in sorted(letters)}
    glyphs = bytearray(2 * (max(used) + 1))
    for code in used:
        glyphs[2 * code + 1] = _BLANK
    file = pdf.make_stream(_FILE.read_bytes())
    file.Length1 = _FILE.stat().st_size
    name = Name("/PlainseamUnseen")
    descriptor = Dictionary(
        Type=Name.FontDescriptor, FontName=name, Flags=_SYMBOLIC, FontBBox=[0, -200, 1000, 800], ItalicAngle=0,
        Ascent=800, Descent=-200, CapHeight=700, StemV=80, FontFile2=file,
    )  # fmt: skip
    about = Dictionary(Registry=String("Adobe"), Ordering=String("Identity"), Supplement=0)
    descendant = Dictionary(
        Type=Name.Font, Subtype=Name.CIDFontType2, BaseFont=name, CIDSystemInfo=about, DW=1000, W=Array([]),
        FontDescriptor=pdf.make_indirect(descriptor), CIDToGIDMap=pdf.make_stream(bytes(glyphs)),
    )  # fmt: skip
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font, Subtype=Name.Type0, BaseFont=name, Encoding=Name("/Identity-H"),
            DescendantFonts=[pdf.make_indirect(descendant)], ToUnicode=pdf.make_stream(to_unicode(used)),
        )
    )  # fmt: skip
