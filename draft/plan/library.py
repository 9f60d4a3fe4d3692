"""The texts of a pattern: its own file and those that it uses or varies, read from beside it or from the bundle."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path

from draft.base.disk import files_in, is_beside, is_folder, is_there
from draft.base.envelope import SUFFIX as ENVELOPE
from draft.base.envelope import opened
from draft.base.notes import LONGEST, Note, Problems, Source, error, nearest
from draft.base.record import dataclass
from draft.base.resources import folder
from draft.base.textfile import read_source
from draft.language import tree
from draft.language.kept_trees import read_again

SUFFIX = ".piece"
MOST_USED = 20


@dataclass(frozen=True)
class Taken:
    """A file of which some is taken by its names, with what it uses itself."""

    asked: tree.Uses
    texts: Texts

    @property
    def seen(self) -> tuple[tuple[tree.File, tuple[str, ...] | None], ...]:
        """Its files, each with the names that are seen of it."""
        files = (self.texts.main, *(file for file, _ in self.texts.others), *self.texts.templates)
        return tuple((file, self.asked.names) for file in files)


@dataclass(frozen=True)
class Texts:
    """A pattern's tree, the trees of templates that it uses, and the folder that its chart is looked for in.

    `base` are the texts of the pattern that it varies, `taken` those of files of which it takes some by its names.
    """

    main: tree.File
    used: tuple[tree.File, ...]
    beside: Path
    base: Texts | None = None
    taken: tuple[Taken, ...] = ()

    @property
    def templates(self) -> tuple[tree.File, ...]:
        """The files whose templates are used, also those of the pattern that is varied."""
        return (*(self.base.templates if self.base else ()), *self.used)

    @property
    def bases(self) -> tuple[Path, ...]:
        """The files of the patterns that it varies, the lowest first."""
        return (*self.base.bases, self.base.beside / self.base.main.span.source.name) if self.base else ()

    @property
    def others(self) -> tuple[tuple[tree.File, tuple[str, ...] | None], ...]:
        """The other files that names are seen of, each with those that are, or None where all are."""
        below = (*self.base.others, (self.base.main, None)) if self.base else ()
        return (*below, *(part for taken in self.taken for part in taken.seen))


def find(pattern: str) -> Path:
    """The file of a bundled pattern by its name, or any path. Raises `Problems` if there is none.

    Of an envelope it is the file that it is opened at. A folder of a bundled pattern's name is mostly the pack that was
    made of it.
    """
    path = Path(pattern)
    if path.suffix == ENVELOPE:
        return path / opened(path).opens
    bundled = bundled_files()
    if path.suffix == SUFFIX or (is_there(path) and not (pattern in bundled and is_folder(path))):
        return path
    if pattern in bundled:
        return bundled[pattern]
    hint = nearest(pattern, bundled) or ("give the path of a .piece file, or one of: " + ", ".join(bundled),)
    raise Problems([error(f"there is no pattern called `{pattern}`", None, *hint)])


def bundled_files() -> dict[str, Path]:
    """The piece files that come along, by their names and in the order of these: patterns, and files of templates."""
    return {file.stem: file for file in sorted(folder("pieces").glob(f"*{SUFFIX}"))}


def bundled_patterns() -> list[str]:
    """The names of those that are patterns, told by the line that a pattern begins with: nothing is read for it."""
    return [name for name, file in bundled_files().items() if _BEGINS.search(file.read_text("utf-8"))]


_BEGINS = re.compile(r"^pattern\b", re.MULTILINE)


def read_texts(path: Path) -> Texts:
    """The pattern at `path` and the files that it uses. Raises `Problems` with the mistakes of all of them."""
    return with_used(_tree(read_source(path, "pattern")), path.parent, within=(path.name,))


def read_used(path: Path) -> tree.File:
    """The tree of a file of templates. Raises `Problems` with its mistakes."""
    return _tree(read_source(path, "file of templates"))


@lru_cache(maxsize=4)
def _tree(source: Source) -> tree.File:
    """The tree of a text, read once for a batch of orders."""
    return read_again(source)


def with_used(
    main: tree.File, directory: Path, reading: Callable[[Path], tree.File] = read_used, within: tuple[str, ...] = ()
) -> Texts:
    """A pattern's tree with the files that it uses from beside it. Raises `Problems` with the mistakes of those.

    `within` are the names of the files that lead to it, itself the last.
    """
    return _Library(reading).texts(main, directory, within or (main.span.source.name,))


class _Library:
    """Reads what one pattern leads to; each file counts, also where it is read again."""

    def __init__(self, reading: Callable[[Path], tree.File]) -> None:
        self.reading = reading
        self.count = 0

    def texts(self, main: tree.File, directory: Path, within: tuple[str, ...]) -> Texts:
        notes: list[Note] = []
        settings = [setting for setting in _settings(main, "uses") if isinstance(setting, tree.Uses)]
        _note_too_many(settings)
        used = [self._file(directory, setting, notes) for setting in settings if not setting.names]
        taken = [(setting, self._whole(directory, setting, within, notes)) for setting in settings if setting.names]
        bases = [self._whole(directory, head.base, within, notes) for head in main.patterns[:1] if head.base]
        if notes:
            raise Problems(notes)
        return Texts(
            main,
            tuple(file for file in used if file),
            directory,
            next(iter(bases), None),
            tuple(Taken(setting, texts) for setting, texts in taken if texts),
        )

    def _file(self, directory: Path, setting: tree.Setting, notes: list[Note]) -> tree.File | None:
        self.count += 1
        if self.count > MOST_USED:
            fact = f"this pattern leads to more than {MOST_USED} files, with those that they use themselves"
            raise Problems([error(fact, setting.span, "put what belongs together into one file")])
        try:
            return self.reading(beside(directory, setting))
        except Problems as problems:
            notes += [note for note in problems.notes if note not in notes]
        return None

    def _whole(
        self, directory: Path, setting: tree.Setting, within: tuple[str, ...], notes: list[Note]
    ) -> Texts | None:
        """A file with all that it uses itself."""
        name = str(setting.value)
        if name in within:
            ring = " leads to ".join(f"`{one}`" for one in (*within[within.index(name) :], name))
            notes.append(error(f"these files lead to one another: {ring}", setting.value_span))
            return None
        file = self._file(directory, setting, notes)
        if file is None:
            return None
        try:
            return self.texts(file, beside(directory, setting).parent, (*within, name))
        except Problems as problems:
            notes += [note for note in problems.notes if note not in notes]
        return None


def _note_too_many(settings: Sequence[tree.Setting]) -> None:
    if settings[MOST_USED:]:
        fact = f"this pattern uses {len(settings):,} files, more than {MOST_USED}"
        raise Problems([error(fact, settings[MOST_USED].span, "put templates that belong together into one file")])


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
    """The file of the chart that a pattern names, or the one that it varies: the first of several.

    Raises `Problems` if one is named and not there.
    """
    return next(iter(charts_of(texts).values()), None)


def charts_of(texts: Texts) -> dict[str, Path]:
    """The files of all of its charts, by their names; the usual one may have none.

    Raises `Problems` if one is named and not there.
    """
    named = _settings(texts.main, "chart")
    if not named and texts.base:
        return charts_of(texts.base)
    return {one.name: beside(texts.beside, one) for one in named if isinstance(one, tree.Chart)}
