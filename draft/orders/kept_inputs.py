"""What a batch of orders reads, read once: texts of patterns, charts, pictures, translations and cloths as bytes.

Whoever drafts reads these and nothing else, in a folder of its own: a file that is edited while orders run changes
nothing, and a worker on another machine needs nothing of this one's disk.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import field
from pathlib import Path
from typing import TypeAlias

from draft.base.notes import Note, Problems, error
from draft.base.record import dataclass
from draft.base.textfile import read_data
from draft.fabrics.fabric import find_fabric
from draft.sharing.enclosed import enclosed

_MOST = 40_000_000
"""Bytes of all files of a batch: more than any studio's patterns have."""

Places: TypeAlias = dict[str, dict[str, str]]
"""For `patterns` and for `cloths` the paths of their files, by their names."""


@dataclass(frozen=True)
class Kept:
    """Files by their places in a folder to come, and under which place each pattern and cloth lies there."""

    files: Mapping[str, bytes] = field(default_factory=dict, hash=False)
    patterns: Mapping[str, str] = field(default_factory=dict, hash=False)
    cloths: Mapping[str, str] = field(default_factory=dict, hash=False)

    def digests(self) -> dict[str, str]:
        """The SHA-256 of every file, under the name of its pattern or cloth and its own: `marlpit/women.csv`."""
        named = {
            place.partition("/")[0]: Path(name).stem for name, place in [*self.patterns.items(), *self.cloths.items()]
        }
        parted = {place: place.partition("/") for place in sorted(self.files)}
        return {
            f"{named[folder]}/{name}": hashlib.sha256(self.files[place]).hexdigest()
            for place, (folder, _, name) in parted.items()
        }

    @property
    def key(self) -> str:
        """Names all of it."""
        said = repr((sorted(self.patterns.items()), sorted(self.cloths.items()), sorted(self.files)))
        found = hashlib.sha256(said.encode())
        for _, data in sorted(self.files.items()):
            found.update(hashlib.sha256(data).digest())
        return found.hexdigest()

    def put_into(self, folder: Path) -> Places:
        """Write the files into an empty folder; gives the paths of patterns and cloths there."""
        for name, data in self.files.items():
            place = folder / name
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(data)
        named = {"patterns": self.patterns, "cloths": self.cloths}
        return {sort: {name: str(folder / place) for name, place in some.items()} for sort, some in named.items()}


def keep_inputs(patterns: Iterable[str], cloths: Iterable[str]) -> Kept:
    """All that these patterns and cloths, bundled ones or paths, are read from.

    Raises `Problems` with the mistakes of all of them, and for what cannot be read.
    """
    notes: list[Note] = []
    files: dict[str, bytes] = {}
    kept: tuple[dict[str, str], dict[str, str]] = ({}, {})
    for number, name in enumerate(dict.fromkeys(patterns)):
        try:
            kept[0][name] = _keep_pattern(name, f"pattern-{number}", files)
        except Problems as problems:
            notes += problems.notes
    for number, name in enumerate(dict.fromkeys(cloths)):
        try:
            file = find_fabric(name)
            kept[1][name] = f"cloth-{number}/{file.name}"
            files[kept[1][name]] = read_data(file, "file about a fabric")
        except Problems as problems:
            notes += problems.notes
    if sum(map(len, files.values())) > _MOST:
        notes.append(error("the files of these patterns are over 40 MB together", None, "make them in several batches"))
    if notes:
        raise Problems(notes)
    return Kept(files, *kept)


def _keep_pattern(name: str, folder: str, files: dict[str, bytes]) -> str:
    """Put all files that a pattern leads to among `files`, in one folder; gives the place of its own."""
    envelope = enclosed(name)
    files |= {f"{folder}/{file}": data for file, data in envelope.files.items()}
    return f"{folder}/{envelope.opens}"
