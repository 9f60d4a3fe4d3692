"""Work done once for the same object: outlines are slow to offset, and several files show the same ones.

Pieces and garments hold arrays and cannot be compared by value, so they are told apart by identity.
"""

from __future__ import annotations

from typing import Generic, TypeVar

T = TypeVar("T")


class Same(Generic[T]):
    """An object as a key: equal only to itself, and kept alive while the key is."""

    def __init__(self, value: T) -> None:
        self.value = value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.value is other.value

    def __hash__(self) -> int:
        return id(self.value)
