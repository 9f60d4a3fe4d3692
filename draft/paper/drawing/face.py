"""A studio's face on its documents: its mark, its colours, where it is found and its terms."""

from __future__ import annotations

from draft.base.record import dataclass
from draft.paper.drawing.drawing import INK
from draft.paper.drawing.picture_page import PicturePage


@dataclass(frozen=True)
class Face:
    """What a studio says of itself, in the language of the document; colours as `#rrggbb`."""

    name: str = ""
    mark: PicturePage | None = None
    headings: str = INK
    lines: str = INK
    address: tuple[str, ...] = ()
    link: str = ""
    terms: tuple[str, ...] = ()

    @property
    def host(self) -> str:
        """The link as it is read, without what a browser adds itself."""
        return self.link.partition("://")[2].rstrip("/")


NO_FACE = Face()
