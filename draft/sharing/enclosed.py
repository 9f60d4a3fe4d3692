"""What a pattern uses, put into one envelope.

That is its own file, those that it uses, varies and takes from, also bundled ones, so that a later plainseam draws the
same; its charts, its pictures, its translations and the studio's settings. Nobody's measures are among them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from draft.base.as_data import Data
from draft.base.disk import is_file, is_there
from draft.base.envelope import Envelope, envelope_bytes, opened
from draft.base.envelope_rules import CONTENTS
from draft.base.notes import Problems, error
from draft.base.textfile import read_data
from draft.base.zipped import ZipError
from draft.language import tree
from draft.paper.drawing.spoken_languages import languages
from draft.plan.advice import PICTURES
from draft.plan.library import Texts, beside, charts_of, find, read_used, with_used
from draft.sharing.studio_shared import studio_files
from draft.studio.studio import FILE


def enclosed(pattern: str, more: Sequence[Path] = ()) -> Envelope:
    """A pattern with all that it uses and `more` files, such as cloths and charts.

    Raises `Problems` for mistakes in the texts, a file that is missing, two that have one name, or one that may not
    be in an envelope.
    """
    path = find(pattern)
    found: dict[str, bytes] = {}
    places: dict[str, Path] = {}
    for file in (*_used(path), *more):
        data = read_data(file, "file")
        before = places.setdefault(file.name, file)
        if found.setdefault(file.name, data) != data:
            fact = f"two files are called `{file.name}`: `{before}` and `{file}`"
            raise Problems([error(fact, None, "rename one of them, where it is named too")])
    for name, held in studio_files(path.parent).items():
        found[name] = held if isinstance(held, bytes) else read_data(held, "mark")
    envelope = Envelope(path.name, found)
    sealed(envelope)
    return envelope


def sealed(envelope: Envelope) -> bytes:
    """The bytes of an envelope. Raises `Problems` for what may not be in one."""
    try:
        return envelope_bytes(envelope)
    except ZipError as reason:
        fix = "rename that file, or leave it out"
        raise Problems([error(f"this cannot be put into an envelope: it {reason}", None, fix)]) from None


def unsealed(path: Path, folder: Path) -> dict[str, bytes]:
    """The files in an envelope, to be put into a folder.

    Raises `Problems` if the envelope is not safe, or another file of one of these names is in the folder.
    """
    files = dict(opened(path).files)
    for name, data in files.items():
        if is_there(folder / name) and not (is_file(folder / name) and read_data(folder / name, "file") == data):
            fix = "choose a new folder"
            raise Problems([error(f"`{folder / name}` is there and differs; nothing was changed", None, fix)])
    return files


def said_of(envelope: Envelope) -> str:
    """What is in an envelope, a line a file."""
    wide = max(len(name) for name in envelope.files)
    lines = [f"opened at {envelope.opens}"]
    lines += [f"  {name:{wide}}  {len(data):>9,} bytes" for name, data in envelope.files.items()]
    return "\n".join(lines)


def envelope_data(envelope: Envelope) -> Data:
    """The same as data."""
    rows = [
        {"file": name, "bytes": len(envelope.files[name]), "sha256": digest}
        for name, digest in envelope.digests.items()
    ]
    return {"opened_at": envelope.opens, "files": rows}


def _used(path: Path) -> Iterator[Path]:
    """The files that a pattern is read from and drawn with, each perhaps several times."""
    read: list[Path] = [path]

    def reading(file: Path) -> tree.File:
        read.append(file)
        return read_used(file)

    main = read_used(path)
    texts = with_used(main, path.parent, reading, within=(path.name,))
    yield from read
    yield from charts_of(texts).values()
    yield from _pictures(texts)
    for file in read:
        yield from _translations(file)
    yield from _translations(path.parent / FILE)


def _pictures(texts: Texts) -> Iterator[Path]:
    """The pictures of the booklet, also of the pattern that is varied; one that is not there is told by a pack."""
    for file in (texts.main, *(file for file, _ in texts.others)):
        for line in file.booklet:
            setting = line.picture if isinstance(line, tree.Advice) else line
            if isinstance(setting, tree.Setting) and setting.word == "picture":
                yield from _there(texts.beside, setting)


def _there(folder: Path, setting: tree.Setting) -> Iterator[Path]:
    with suppress(Problems):
        if str(setting.value).lower().endswith(PICTURES):
            yield beside(folder, setting)


def _translations(file: Path) -> Iterator[Path]:
    for language in languages():
        said = file.with_name(f"{file.stem}.{language}.toml")
        if said.name != CONTENTS and is_file(said):
            yield said
