"""What a document says of the pattern that it shows: who made it, its version, how it may be used, of what cloth it is.

The same words stand on paper and in the file's own description, where a shelf of files is searched.
"""

from __future__ import annotations

from draft.base.record import dataclass
from draft.paper.drawing.face import NO_FACE, Face


@dataclass(frozen=True)
class Imprint:
    """Words in the language of the document; empty where the pattern does not say it."""

    maker: str = ""
    version: str = ""
    licence: str = ""
    link: str = ""
    cloth: str = ""
    choices: tuple[str, ...] = ()
    """The styles as they are set, a line each."""
    sizes: str = ""
    face: Face = NO_FACE
    """That of the studio that it comes from."""

    def line(self, by: str, version: str) -> str:
        """Maker, version, where the studio is found, and licence; `by` and `version` are how the first two are said."""
        return " · ".join(text for text in (by, version, self.face.host, self.licence) if text)

    @property
    def subject(self) -> str:
        """In a sentence or two what the pattern is for: its sizes, and its cloth."""
        return ". ".join(text.rstrip(".") for text in (self.sizes, self.cloth) if text)


NO_IMPRINT = Imprint()
