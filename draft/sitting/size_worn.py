"""A size of a chart on one person's form: whether it is hers by its girths, and which would be."""

from __future__ import annotations

from collections.abc import Iterator

from draft.base.record import dataclass
from draft.sitting.sit_said import Said, advised, said


@dataclass(frozen=True)
class SizeWorn:
    """The size that is worn, by how much it is off there where it is off most, and what she would better take.

    `lacks` is how many mm of its room are gone at the level `at`; below nothing it has so much more than it is made
    to have. `cut` is the size to cut, nothing where none is large enough; `graded` are levels and the sizes there.
    """

    size: str
    at: str
    lacks: float
    cut: str
    graded: tuple[tuple[str, str], ...] = ()
    too_small: bool = False
    too_large: bool = False

    @property
    def other(self) -> bool:
        """Whether another size, or others at some levels, would be hers."""
        return self.cut != self.size or bool(self.graded)


def size_seen(worn: SizeWorn) -> Iterator[Said]:
    """What is wrong with the size, first of all that is said."""
    if worn.too_small:
        yield said("size_too_small", plain_size=worn.size, name_level=worn.at, mm_off=worn.lacks)
    elif worn.too_large:
        yield said("size_too_large", plain_size=worn.size, name_level=worn.at, mm_off=-worn.lacks)


def size_advice(worn: SizeWorn) -> Iterator[Said]:
    """Which size to take, where that is another."""
    if not worn.cut:
        yield advised("no_size")
    elif worn.graded:
        key = "grade_size" if worn.cut == worn.size else "take_size_graded"
        level, size = worn.graded[0]
        yield advised(key, plain_size=worn.cut, name_level=level, plain_other=size)
    elif worn.cut != worn.size:
        yield advised("take_size", plain_size=worn.cut)
