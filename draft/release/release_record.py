"""What a release says of itself in `release.json`: which version it is, of which inputs and how it was asked for."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from pathlib import Path

from draft.base.disk import is_file, is_folder
from draft.base.notes import Problems, error
from draft.base.record import dataclass
from draft.base.textfile import read_source

RECORD, SUMS, SOURCE = "release.json", "SHA256SUMS", "source"
_FORMAT = 1
_PLAIN = re.compile(r"[0-9A-Za-z][0-9A-Za-z._-]{0,19}")
_NUMBERS = re.compile(r"\d+|[^\d._-]+")


@dataclass(frozen=True)
class ReleaseRecord:
    """A release: pattern, version and day, what it was asked for, and the digests of its inputs by their names.

    `envelope` is the file in the release that holds the inputs.
    """

    pattern: str
    version: str
    day: str
    made_with: str
    asked: Mapping[str, object]
    inputs: Mapping[str, str]
    envelope: str
    since: str = ""
    testers: bool = False

    @property
    def folder(self) -> str:
        """The name of its folder."""
        return f"{self.pattern}-{self.version}{'-testers' if self.testers else ''}"

    @property
    def data(self) -> bytes:
        """The record as it is written."""
        said = {
            "release": _FORMAT, "pattern": self.pattern, "version": self.version, "day": self.day,
            "testers": self.testers, "since": self.since, "made_with": self.made_with, "asked": dict(self.asked),
            "envelope": self.envelope, "digest": self.digest, "inputs": dict(self.inputs),
        }  # fmt: skip
        return (json.dumps(said, indent=1, ensure_ascii=False) + "\n").encode()

    @property
    def digest(self) -> str:
        """SHA-256 of all inputs together."""
        lines = "".join(f"{digest}  {name}\n" for name, digest in sorted(self.inputs.items()))
        return hashlib.sha256(lines.encode()).hexdigest()


def read_record(folder: Path) -> ReleaseRecord | None:
    """The record of the release in a folder; None where there is none. Raises `Problems` where it cannot be read."""
    file = folder / RECORD
    if not is_file(file):
        return None
    try:
        said = json.loads(read_source(file, "record of a release").text)
        if said["release"] != _FORMAT:
            raise Problems([error(f"`{file}` was made by another plainseam, which counts releases otherwise")])
        names = ("pattern", "version", "day", "made_with", "envelope", "since")
        texts = {name: str(said[name]) for name in names}
        return ReleaseRecord(**texts, asked=dict(said["asked"]), inputs=dict(said["inputs"]), testers=said["testers"])
    except (ValueError, KeyError, TypeError, RecursionError):
        fix = "put that folder aside: it is not as it was made"
        raise Problems([error(f"`{file}` is no record of a release", None, fix)]) from None


def released_before(place: Path, pattern: str, version: str, testers: bool = False) -> Path | None:
    """The folder of the last release of a pattern below a version; None where there is none."""
    if not is_folder(place):
        return None
    found = [(record, folder) for folder in place.iterdir() if is_folder(folder) and (record := read_record(folder))]
    older = [
        (in_order(record.version), record.testers == testers, folder)
        for record, folder in found
        if record.pattern == pattern and in_order(record.version) < in_order(version)
    ]
    return max(older, key=lambda one: one[:2])[2] if older else None


def in_order(version: str) -> list[tuple[int, str]]:
    """What versions are ordered by: their numbers as numbers, so that 1.10 comes behind 1.9."""
    return [(int(part), "") if part.isdigit() else (-1, part) for part in _NUMBERS.findall(version)]


def plain_version(version: str) -> bool:
    """Whether a version can name a folder on every system."""
    return bool(_PLAIN.fullmatch(version)) and not version.endswith(".")


def sums(files: Mapping[str, bytes]) -> bytes:
    """A line for each file, as `sha256sum -c` and `shasum -c` read them."""
    return "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in sorted(files.items())).encode()


def unlike(folder: Path) -> list[str]:
    """The files of a release that are not as they were made: changed or gone."""
    listed = read_source(folder / SUMS, "list of checksums").text if is_file(folder / SUMS) else ""
    lines = [line.partition("  ") for line in listed.splitlines() if line]
    return [name for digest, _, name in lines if _digest(folder / name) != digest] if lines else [SUMS]


def _digest(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest() if is_file(file) else ""
