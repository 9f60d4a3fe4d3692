"""Words as DXF writes them: what its readers take for a code is written so that they show it.

In a line of text `%%d` is a degree sign, `%%%` a percent sign, `^J` the end of a line, `\\U+00e9` a letter. Known from
memory, and tried with the reader of the library that writes the files.
"""

from __future__ import annotations

import re
import unicodedata

_PERCENTS = re.compile("%{2,}")
_LETTER_CODES = re.compile(r"\\(?=[Uu]\+)")
_PAGE_CODES = re.compile(r"\\(?=[Mm]\+)")
_BACKSLASH = r"\U+005C"


def dxf_text(text: str) -> str:
    """A line of words for a `TEXT`, shown as it is given; what cannot be seen becomes a blank."""
    seen = "".join(" " if unicodedata.category(letter) in ("Cc", "Cs", "Zl", "Zp") else letter for letter in text)
    coded = _LETTER_CODES.sub(lambda _: _BACKSLASH, seen)
    coded = _PAGE_CODES.sub(lambda _: "\\ ", coded)  # readers know no other way to tell it from the code
    coded = _PERCENTS.sub(lambda found: "%%%" * len(found[0]), coded).replace("^", "^ ")
    coded = "".join(map(_halves, coded))
    return coded + " " if coded.endswith("^ ") else coded


def _halves(letter: str) -> str:
    """A letter beyond the first plane as its two halves, each with a code of four digits."""
    if ord(letter) < 0x10000:
        return letter
    high, low = divmod(ord(letter) - 0x10000, 0x400)
    return f"\\U+{0xD800 + high:04X}\\U+{0xDC00 + low:04X}"
