"""The texts of a pattern: its own file and the template files that it uses, read from beside it or from the bundle."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from draft.base.disk import files_in, is_beside, is_there
from draft.base.notes import LONGEST, Note, Problems, error, nearest
from draft.base.resources import folder
from draft.base.textfile import read_source
from draft.language import tree
from draft.language.reader import read

SUFFIX = ".piece"
MOST_USED = 20


@dataclass(frozen=True)
class Texts:
    """A pattern's tree, the trees that it uses, and the folder that its chart is looked for in."""

    main: tree.File
    used: tuple[tree.File, ...]
    beside: Path


def find(pattern: str) -> Path:
    """The file of a bundled pattern by its name, or any path. Raises `Problems` if there is none."""
    path = Path(pattern)
    if path.suffix == SUFFIX or is_there(path):
        return path
    bundled = {file.stem: file for file in sorted(folder("pieces").glob(f"*{SUFFIX}"))}
    if pattern in bundled:
        return bundled[pattern]
    hint = nearest(pattern, bundled) or ("give the path of a .piece file, or one of: " + ", ".join(bundled),)
    raise Problems([error(f"there is no pattern called `{pattern}`", None, *hint)])


def read_texts(path: Path) -> Texts:
    """The pattern at `path` and the files that it uses. Raises `Problems` with the mistakes of all of them."""
    return with_used(read(read_source(path, "pattern")), path.parent)


def read_used(path: Path) -> tree.File:
    """The tree of a file of templates. Raises `Problems` with its mistakes."""
    return read(read_source(path, "file of templates"))


def with_used(main: tree.File, directory: Path, reading: Callable[[Path], tree.File] = read_used) -> Texts:
    """A pattern's tree with the files that it uses from beside it. Raises `Problems` with the mistakes of those."""
    notes: list[Note] = []
    used = []
    named = _settings(main, "uses")
    if named[MOST_USED:]:
        fact = f"this pattern uses {len(named):,} files, more than {MOST_USED}"
        raise Problems([error(fact, named[MOST_USED].span, "put templates that belong together into one file")])
    for setting in named:
        try:
            used.append(reading(beside(directory, setting)))
        except Problems as problems:
            notes += problems.notes
    if notes:
        raise Problems(notes)
    return Texts(main, tuple(used), directory)


def _settings(file: tree.File, word: str) -> list[tree.Setting]:
    return [setting for pattern in file.patterns for setting in pattern.settings if setting.word == word]


def beside(directory: Path, setting: tree.Setting) -> Path:
    """A file named in a pattern: beside it, or in the bundle. Raises `Problems` for any other place.

    A piece file may come from anyone, so that it may not lead the reader to another folder.
    """
    name = str(setting.value)
    if not name or Path(name).name != name or "\\" in name or name.startswith("."):
        fact = f"`{name}` is not the plain name of a file beside this one" if name else "this names no file"
        raise Problems([error(fact, setting.value_span, "put the file beside this one and give its name alone")])
    for place in (directory, folder("pieces")):
        file = place / name
        if is_beside(file, place):
            return file
    known = {f.stem: f.name for place in (folder("pieces"), directory) for f in files_in(place, Path(name).suffix)}
    close = [known[stem] for stem in get_close_matches(Path(name).stem[:LONGEST], known, n=1)]
    hint = f"try `{close[0]}`" if close else "put it into the folder of this one"
    raise Problems([error(f"there is no file `{name}` beside this one", setting.value_span, hint)])


def chart_of(texts: Texts) -> Path | None:
    """The file of the chart that a pattern names. Raises `Problems` if it is named and not there."""
    named = _settings(texts.main, "chart")
    return beside(texts.beside, named[0]) if named else None
