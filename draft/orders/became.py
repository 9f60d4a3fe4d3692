"""What became of an order: made, or refused and why. Plain data without a name or a measure of anybody."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, field
from typing import Any, Literal

from draft.base.record import dataclass

Why = Literal["order", "broke"]
"""An order is refused for what it asks; or the work broke off, and may well be done at another try."""


@dataclass(frozen=True)
class MadeFile:
    """One file of a pack: its place there, its size in bytes, its SHA-256 in hexadecimal."""

    name: str
    size: int
    sha256: str


@dataclass(frozen=True)
class ClothLength:
    """Cloth to buy: `name` where the pattern has several, its width and the length before it is rounded up, mm."""

    name: str
    width: float
    length: float


@dataclass(frozen=True)
class Made:
    """A pack that lies in its folder, whole."""

    key: str
    folder: str
    """The name of the pack's folder, within the one that it was made in."""
    files: tuple[MadeFile, ...]
    pages: Mapping[str, int] = field(default_factory=dict, hash=False)
    """Pages of the pattern by their paper."""
    cloth: tuple[ClothLength, ...] = ()
    estimates: tuple[str, ...] = ()
    """Measures that nobody took, and that published surveys stand in for."""
    cautions: tuple[str, ...] = ()

    @property
    def is_made(self) -> bool:
        """True: the order can be sent."""
        return True


@dataclass(frozen=True)
class Refused:
    """An order of which nothing was written, with the reasons and what to do about them."""

    key: str
    reasons: tuple[str, ...]
    fixes: tuple[str, ...] = ()
    why: Why = "order"

    @property
    def is_made(self) -> bool:
        """False: there is nothing to send."""
        return False


def became_data(one: Made | Refused) -> dict[str, Any]:
    """Plain data that JSON holds."""
    return {"became": "made" if isinstance(one, Made) else "refused", **asdict(one)}


def became_from(data: Mapping[str, Any]) -> Made | Refused:
    """What such data say. Raises KeyError, TypeError or ValueError for what they do not."""
    if data["became"] == "refused":
        return Refused(str(data["key"]), _texts(data["reasons"]), _texts(data["fixes"]), _why(data["why"]))
    return Made(
        key=str(data["key"]),
        folder=str(data["folder"]),
        files=tuple(MadeFile(str(one["name"]), int(one["size"]), str(one["sha256"])) for one in data["files"]),
        pages={str(name): int(count) for name, count in data["pages"].items()},
        cloth=tuple(ClothLength(str(one["name"]), float(one["width"]), float(one["length"])) for one in data["cloth"]),
        estimates=_texts(data["estimates"]),
        cautions=_texts(data["cautions"]),
    )


def _texts(given: Sequence[object]) -> tuple[str, ...]:
    return tuple(map(str, given))


def _why(given: object) -> Why:
    return "broke" if given == "broke" else "order"
