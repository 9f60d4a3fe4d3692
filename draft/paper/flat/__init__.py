"""The finished garment drawn flat, front and back, from the drafted lines and the declared joins."""

from draft.paper.flat.views import flat_drawing

__all__ = ["flat_drawing"]
