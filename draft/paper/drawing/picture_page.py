"""A picture from a file as a document of one page, which other documents can show."""

from __future__ import annotations

from draft.base.record import dataclass


@dataclass(frozen=True)
class PicturePage:
    """A picture's page, that page's width and height in mm, and the SVG that it was drawn from."""

    data: bytes
    width: float
    height: float
    svg: bytes = b""

    def within(self, width: float, height: float) -> tuple[float, float]:
        """How wide and high it is drawn in a box, mm."""
        scale = min(width / self.width, height / self.height)
        return self.width * scale, self.height * scale
