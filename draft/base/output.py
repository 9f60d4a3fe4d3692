"""Writing results: beside the place where they belong, then moved there, so that nothing half-written is ever found."""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from draft.base.alone import alone, workplace
from draft.base.disk import files_in
from draft.base.envelope import within
from draft.base.foreign import stop_if_foreign
from draft.base.notes import Problems, error
from draft.base.opening import words_of

NEW = "new"
"""What a file is called while it is written: its own name may be as long as names can be."""


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files, named by their place in `folder`, all or none.

    Raises `Problems` if the folder cannot be written, a file of somebody else's would be written over, or another run
    is writing there and does not end.
    """
    try:
        with alone(folder):
            stop_if_foreign(folder, files)
            _write(folder, files)
    except (OSError, ValueError) as reason:
        fix = "choose another folder with `--out`, or make room there"
        raise Problems([error(_unwritten(folder, reason), None, fix)]) from None


def write_new_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write a folder that is not there yet, whole or not at all: also where the program is killed meanwhile.

    Raises `Problems` if something is there already, if it cannot be written, or another run is writing beside it.
    """
    try:
        existing = next((place for place in folder.parents if place.exists()), folder.parent)
        with alone(folder), workplace(existing) as beside:
            _fill(beside / NEW, files)
            if os.path.lexists(folder):
                fix = "choose another place with `--out`"
                raise Problems([error(f"`{folder}` is there already, and nothing is written over", None, fix)])
            folder.parent.mkdir(parents=True, exist_ok=True)
            (beside / NEW).rename(folder)
    except (OSError, ValueError) as reason:
        fix = "choose another folder with `--out`, or make room there"
        raise Problems([error(_unwritten(folder, reason), None, fix)]) from None


def _fill(folder: Path, files: Mapping[str, bytes]) -> None:
    """Files by their places, each on the disk and not only on its way there."""
    for name, data in files.items():
        place = folder / name
        place.parent.mkdir(parents=True, exist_ok=True)
        with place.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())


def _unwritten(path: Path, reason: OSError | ValueError) -> str:
    return f"`{path}` cannot be written: {words_of(reason)}; nothing was changed"


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    existing = next((place for place in (folder, *folder.parents) if place.exists()), folder)
    with workplace(existing) as beside:
        for name, data in files.items():
            place = beside / name
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(data)
        _move_in(beside, folder, tuple(files))


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
    around = within(path)
    if around:
        fix = f"take its files out with `plainseam envelope {around} --unpack DIR`, and change those"
        raise Problems([error(f"`{path}` lies in an envelope, which is read and never changed", None, fix)])
    try:
        place = path.resolve()  # a link stays a link
        if place.is_symlink():  # from Python 3.13 on resolving does not say so
            raise RuntimeError
        if place.exists() and not place.is_file():
            raise Problems([error(f"`{path}` is no file, so nothing is written there", None, "name a file")])
        with alone(place), workplace(place.parent) as beside:
            (beside / NEW).write_bytes(data)
            if place.exists():
                shutil.copymode(place, beside / NEW)
            (beside / NEW).replace(place)
    except RuntimeError:
        raise Problems([error(f"`{path}` is a link that leads back to itself")]) from None
    except (OSError, ValueError) as reason:
        raise Problems([error(_unwritten(path, reason))]) from None


def leftovers(folder: Path, files: Mapping[str, bytes]) -> list[str]:
    """Files of an earlier run in the same subfolders that this one did not write: an old size, say."""
    kinds = {(Path(name).parent, Path(name).suffix) for name in files}
    found = {str(path.relative_to(folder)) for parent, suffix in kinds for path in files_in(folder / parent, suffix)}
    return sorted(found - set(files))
