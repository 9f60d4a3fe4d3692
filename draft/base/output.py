"""Writing results: beside the place where they belong, then moved there, so that nothing half-written is ever found."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from draft.base.notes import Problems, error


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files, named by their place in `folder`, all or none. Raises `Problems` if the folder cannot be written."""
    try:
        _write(folder, files)
    except OSError as reason:
        words = (reason.strerror or str(reason)).lower()
        fix = "choose another folder with `--out`, or make room there"
        raise Problems([error(f"`{folder}` cannot be written: {words}; nothing was changed", None, fix)]) from None


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    existing = folder
    while not existing.exists():
        existing = existing.parent
    beside = Path(tempfile.mkdtemp(prefix=".plainseam-", dir=folder if existing == folder else existing))
    try:
        for name, data in files.items():
            place = beside / name
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(data)
        _move_in(beside, folder, tuple(files))
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _move_in(beside: Path, folder: Path, names: Sequence[str]) -> None:
    """Move all files to where they belong, or leave everything there as it was."""
    places = {folder, *((folder / name).parent for name in names)}
    wanting = sorted({p for place in places for p in (place, *place.parents) if not p.exists()}, reverse=True)
    old, moved = beside / "old", list[str]()
    try:
        for name in names:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            _keep(folder / name, old / name)
            moved.append(name)
            (beside / name).replace(folder / name)
    except BaseException:
        for name in moved:
            if (old / name).exists():
                (old / name).replace(folder / name)
            else:
                (folder / name).unlink(missing_ok=True)
        for place in wanting:
            with suppress(OSError):
                place.rmdir()
        raise


def _keep(place: Path, kept: Path) -> None:
    """A second name for a file that is about to be replaced, or a copy where the disk allows none."""
    if not place.exists():
        return
    kept.parent.mkdir(parents=True, exist_ok=True)
    try:
        kept.hardlink_to(place)
    except OSError:
        shutil.copy2(place, kept)


def replace_file(path: Path, data: bytes) -> None:
    """Put new contents into a file, all or nothing; its permissions stay. Raises `Problems` if it cannot be written."""
    place = path.resolve()  # a link stays a link
    try:
        beside = Path(tempfile.mkdtemp(prefix=".plainseam-", dir=place.parent))
        try:
            (beside / place.name).write_bytes(data)
            if place.exists():
                shutil.copymode(place, beside / place.name)
            (beside / place.name).replace(place)
        finally:
            shutil.rmtree(beside, ignore_errors=True)
    except OSError as reason:
        words = (reason.strerror or str(reason)).lower()
        raise Problems([error(f"`{path}` cannot be written: {words}; nothing was changed")]) from None


def leftovers(folder: Path, files: Mapping[str, bytes]) -> list[str]:
    """Files of an earlier run in the same subfolders that this one did not write: an old size, say."""
    kinds = {(Path(name).parent, Path(name).suffix) for name in files}
    found = {
        str(path.relative_to(folder))
        for parent, suffix in kinds
        for path in (folder / parent).glob(f"*{suffix}")
        if path.is_file()
    }
    return sorted(found - set(files))
