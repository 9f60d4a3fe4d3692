"""The carried font inside a PDF: each face as far as a document uses it, and which letter each glyph stands for.

A face is embedded as its table of compact outlines (CFF, Adobe's Technical Note 5176). The outlines of glyphs that are
not used are blanked where they stand, so that nothing moves and no offset changes; compressed, they are gone.
"""

from __future__ import annotations

import hashlib
import struct
from collections.abc import Collection, Mapping
from functools import cache
from itertools import pairwise
from typing import Any

from draft.paper.drawing import font

_END = b"\x0e"
"""An outline that draws nothing: `endchar` (Technical Note 5177)."""
_CHAR_STRINGS = 17
"""Where the outlines begin: the operator of the font's dictionary (Technical Note 5176, table 9)."""
_NONSYMBOLIC = 32
_STEM = {"regular": 80, "bold": 140}  # only a guide for readers that lack the font, which is embedded here


def embedded(pdf: Any, face: str, letters: Collection[str]) -> Any:
    """The face as a font object of a `pikepdf.Pdf`, whose codes are the numbers of glyphs."""
    from pikepdf import Array, Dictionary, Name, String

    used = {font.glyph(letter): letter for letter in sorted(letters) if font.glyph(letter)}
    data = _blanked(_outlines(face), {0, *used})
    name = Name(f"/{_tag(data)}+{font.FILES[face].removesuffix('.otf')}")
    file = pdf.make_stream(data)
    file.Subtype = Name.CIDFontType0C
    descriptor = Dictionary(
        Type=Name.FontDescriptor, FontName=name, Flags=_NONSYMBOLIC, FontBBox=[*font.BOX], ItalicAngle=0,
        Ascent=font.BOX[3], Descent=font.BOX[1], CapHeight=round(1000 * font.CAP_HEIGHT), StemV=_STEM[face],
        FontFile3=file,
    )  # fmt: skip
    widths = Array([part for number, letter in sorted(used.items()) for part in (number, [_width(face, letter)])])
    about = Dictionary(Registry=String("Adobe"), Ordering=String("Identity"), Supplement=0)
    descendant = Dictionary(
        Type=Name.Font, Subtype=Name.CIDFontType0, BaseFont=name, CIDSystemInfo=about, DW=1000, W=widths,
        FontDescriptor=pdf.make_indirect(descriptor),
    )  # fmt: skip
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font, Subtype=Name.Type0, BaseFont=name, Encoding=Name("/Identity-H"),
            DescendantFonts=[pdf.make_indirect(descendant)], ToUnicode=pdf.make_stream(to_unicode(used)),
        )
    )  # fmt: skip


def _width(face: str, letter: str) -> int:
    return round(font.text_width(letter, 1000.0, face == "bold"))


def _tag(data: bytes) -> str:
    """Six capitals that tell one subset from another (ISO 32000-1, 9.6.4)."""
    return "".join(chr(ord("A") + byte % 26) for byte in hashlib.sha256(data).digest()[:6])


def to_unicode(used: Mapping[int, str]) -> bytes:
    """What a reader needs to search and copy (ISO 32000-1, 9.10.3): codes of four digits, 100 to a block at most."""
    said = {number: font.said(letter).encode("utf-16-be").hex() for number, letter in used.items()}
    lines = [f"<{number:04x}> <{word}>" for number, word in sorted(said.items())]
    blocks = [lines[k : k + 100] for k in range(0, len(lines), 100)]
    body = [f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks]
    head = "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CMapType 2 def\n/CMapName /Letters def\n"
    system = "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
    codes = "1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n"
    tail = "\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend"
    return (head + system + codes + "\n".join(body) + tail).encode("ascii")


# ---- the font's file -------------------------------------------------------------------------------------------------


@cache
def _outlines(face: str) -> bytes:
    """The table of outlines in the face's OpenType file."""
    data = font.file(face).read_bytes()
    (count,) = struct.unpack_from(">H", data, 4)
    for k in range(count):
        tag, _, offset, length = struct.unpack_from(">4sLLL", data, 12 + 16 * k)
        if tag == b"CFF ":
            return data[offset : offset + length]
    raise ValueError(f"{font.FILES[face]} has no outlines: this is a fault of the program")


def _blanked(data: bytes, keep: Collection[int]) -> bytes:
    """The table with every outline but some replaced by one of the same length that draws nothing."""
    spans, blanked = _spans(data), bytearray(data)
    for number, (start, end) in enumerate(spans):
        if number not in keep:
            blanked[start:end] = _END * (end - start)
    return bytes(blanked)


def _spans(data: bytes) -> list[tuple[int, int]]:
    """Where each glyph's outline stands in the table."""
    names = _index(data, data[2])
    fonts = _index(data, names[-1][1])
    return _index(data, _operand(data, *fonts[0], _CHAR_STRINGS))


def _index(data: bytes, at: int) -> list[tuple[int, int]]:
    """The parts of an index: a count, the size of an offset, the offsets, the parts."""
    (count,) = struct.unpack_from(">H", data, at)
    size, first = data[at + 2], at + 3
    offsets = [int.from_bytes(data[first + k * size : first + (k + 1) * size], "big") for k in range(count + 1)]
    base = first + (count + 1) * size - 1
    return [(base + a, base + b) for a, b in pairwise(offsets)]


def _operand(data: bytes, at: int, end: int, wanted: int) -> int:
    """The last whole number before an operator of a dictionary (Technical Note 5176, table 3)."""
    value = 0
    while at < end:
        lead = data[at]
        if lead == wanted:
            return value
        if lead == 30:  # a decimal, two digits to the byte, ended by a half byte of ones
            while data[at] & 0xF != 0xF:
                at += 1
            at += 1
        elif lead < 22:
            at += 2 if lead == 12 else 1
        else:
            value, length = _integer(data, at)
            at += length
    raise ValueError("the font's dictionary lacks an operator: this is a fault of the program")


def _integer(data: bytes, at: int) -> tuple[int, int]:
    """A whole number, and how many bytes it takes."""
    lead = data[at]
    if lead == 28:
        return int(struct.unpack_from(">h", data, at + 1)[0]), 3
    if lead == 29:
        return int(struct.unpack_from(">l", data, at + 1)[0]), 5
    if lead <= 246:
        return lead - 139, 1
    if lead <= 250:
        return (lead - 247) * 256 + data[at + 1] + 108, 2
    return -(lead - 251) * 256 - data[at + 1] - 108, 2
