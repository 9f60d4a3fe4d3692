"""The piece files of an editor's session: those that are open as they stand there, all others as they lie on disk.

So a pattern follows the file of templates that is typed beside it before that is saved.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from draft.base.notes import Note, Problems, Source
from draft.language import tree
from draft.language.by_blocks import Blocks
from draft.plan.library import read_used

Read = tuple[tree.File | None, list[Note]]


class Shelf:
    """Reads files, each again only when it has changed: a keystroke must not wait for what stays as it is."""

    def __init__(self) -> None:
        self._blocks = Blocks()
        self._open: dict[Path, Source] = {}
        self._read: dict[Path, tuple[object, Read]] = {}

    def read(self, source: Source) -> Read:
        """The tree of a text, with notes on what could not be read of it."""
        return self._blocks.read(source)

    def put(self, path: Path, source: Source) -> None:
        """An open file has this text now."""
        self._open[_whole(path)] = source

    def take(self, path: Path) -> None:
        """A file is open no longer."""
        self._open.pop(_whole(path), None)

    @property
    def open(self) -> dict[Path, Source]:
        """The files that are open, with their texts."""
        return dict(self._open)

    def open_are(self, texts: Mapping[Path, Source]) -> None:
        """These files are open, and no others."""
        self._open = dict(texts)

    def tree(self, path: Path) -> tree.File:
        """The tree of a file that another uses. Raises `Problems` with its mistakes, or where it cannot be read."""
        place = _whole(path)
        state: object = self._open.get(place) or _changed(path)
        known = self._read.get(place)
        if known is None or known[0] is None or known[0] != state:
            known = self._read[place] = (state, self._anew(path, self._open.get(place)))
        file, notes = known[1]
        if notes or file is None:
            raise Problems(notes)
        return file

    def _anew(self, path: Path, source: Source | None) -> Read:
        if source:
            return self.read(source)
        try:
            return read_used(path), []
        except Problems as problems:
            return None, list(problems.notes)


def _whole(path: Path) -> Path:
    try:
        return path.resolve()
    except (OSError, RuntimeError):
        return path


def _changed(path: Path) -> object:
    """When a file was last written, and its size; None where it cannot be asked, so that it is read anyway."""
    try:
        found = path.stat()
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size
