"""Testers' replies as they come back: a table from any spreadsheet, and sheets that were filled in as PDF."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from pathlib import Path

from draft.base.bounded import Failed, run_each
from draft.base.disk import is_folder
from draft.base.notes import MANY, Note, Problems, caution, error, nearest
from draft.base.opening import open_file, read_at_most
from draft.base.record import dataclass
from draft.base.table_text import read_table, with_points
from draft.base.units import UNITS, Kind, QuantityError, read_quantity
from draft.paper.drawing.spoken_languages import languages
from draft.paper.drawing.wording import Wording
from draft.release.feedback_questions import SCALE, Questions
from draft.release.feedback_sheet import SHEET

_LARGEST = 5_000_000
"""Bytes of a filled sheet: a viewer may put a font into it."""
_MOST = 2000
_YES = {"yes", "y", "x", "1", "true", "ja", "j", "wahr"}
_BODY = 100.0, 3000.0
"""mm: no girth that a level is worn over lies outside."""


@dataclass(frozen=True)
class Reply:
    """What one tester says of one size: steps of the scale by the names of levels and lengths, where it pulls.

    `measures` are her own, mm; `where` is where the reply stands, for messages.
    """

    where: str
    tester: str
    size: str
    version: str = ""
    measures: Mapping[str, float] = field(default_factory=dict)
    rooms: Mapping[str, int] = field(default_factory=dict)
    lengths: Mapping[str, int] = field(default_factory=dict)
    pulls: tuple[str, ...] = ()
    elsewhere: str = ""
    cloth: str = ""
    again: str = ""
    words: str = ""


def read_replies(paths: Sequence[Path], asked: Questions) -> tuple[list[Reply], list[Note]]:
    """All replies in tables, sheets and folders of them, and a caution on each that cannot be counted or in part.

    Raises `Problems` for a file that cannot be read at all.
    """
    notes: list[Note] = []
    found: list[Reply] = []
    sheets: list[Path] = []
    for path in [one for given in paths for one in _files(given)]:
        if path.suffix.lower() == ".pdf":
            sheets.append(path)
        else:
            found += _of_table(path, asked, notes)
    found += _of_sheets(sheets, asked, notes)
    return _once(found, notes), notes


def of_other_versions(replies: Sequence[Reply], version: str) -> list[Note]:
    """A caution where replies are of another version than the pattern has now: what it asked for may be another."""
    other = sorted({reply.version for reply in replies if reply.version and reply.version != version})
    if not other:
        return []
    count = sum(reply.version in other for reply in replies)
    fact = f"{count} of {len(replies)} replies are of version {', '.join(other[:4])}"
    fact += f", and the pattern is {version or 'of none'}"
    fix = "lay them over the draft that was sewn: `--pattern` with the envelope in the folder `source` of that release"
    return [caution(fact, None, fix)]


def _files(path: Path) -> list[Path]:
    if not is_folder(path):
        return [path]
    files = sorted(one for one in path.iterdir() if one.suffix.lower() in (".pdf", ".csv"))
    if not files:
        raise Problems([error(f"in `{path}` are neither sheets (PDF) nor tables (CSV)")])
    return files


def _once(replies: Sequence[Reply], notes: list[Note]) -> list[Reply]:
    """Each reply once: the same of the same tester and size was sent twice."""
    first: dict[object, Reply] = {}
    for reply in replies:
        said = (
            reply.tester.casefold(),
            reply.size,
            *(_text(part) for part in (reply.rooms, reply.lengths, reply.measures)),
        )
        before = first.setdefault(said if reply.tester else id(reply), reply)
        if before is not reply:
            notes.append(caution(f"{reply.where} says the same as {before.where}, and is counted once"))
    return list(first.values())


def _text(said: Mapping[str, object]) -> str:
    return json.dumps(dict(said), sort_keys=True)


# ---- tables ---------------------------------------------------------------------------------------------------------


def _of_table(path: Path, asked: Questions, notes: list[Note]) -> list[Reply]:
    table = read_table(path, "table of replies")
    notes += table.notes
    head = [_column(name, asked) for name in table.head]
    _check_head(path, table.head, head, notes)
    if len(table.rows) > _MOST:
        raise Problems([error(f"`{path.name}` has {len(table.rows)} rows, more than {_MOST}")])
    found = []
    for line, row in table.rows:
        cells = {name: cell for name, cell in zip(head, row, strict=False) if name}
        reply = _reply(cells, asked, f"line {line} of `{path.name}`", notes)
        found += [reply] if reply else []
    return found


def _check_head(path: Path, said: Sequence[str], head: Sequence[str], notes: list[Note]) -> None:
    if "size" not in head:
        fix = f"begin the table with columns such as `{'`, `'.join(('tester', 'size', 'room bust'))}`"
        raise Problems([error(f"`{path.name}` has no column `size`", None, fix)])
    unknown = [name for name, column in zip(said, head, strict=True) if not column and name]
    twice = sorted({name for name in head if name and head.count(name) > 1})
    if twice:
        raise Problems([error(f"`{path.name}` has the column `{twice[0]}` twice", None, "take one of the two out")])
    if unknown:
        names = ", ".join(f"`{name[:40]}`" for name in unknown[:8])
        notes.append(caution(f"`{path.name}`: nothing is known of {names}: left out"))


def _column(name: str, asked: Questions) -> str:
    """The column that a head means, whatever its letters, blanks and unit; empty for one that is not known."""
    plain = _plain(name)
    known = {_plain(column): column for column in asked.columns}
    if plain in known:
        return known[plain]
    for unit in UNITS:  # a measure in another unit than cm keeps it
        stem = re.sub(rf"\s*[(\[]?{re.escape(unit)}[)\]]?$", "", plain)
        if stem != plain and f"{stem} cm" in known:
            return f"{known[f'{stem} cm'].removesuffix(' cm')} {unit}"
    measure = next((column for column in asked.columns if column.removesuffix(" cm") == plain.replace(" ", "_")), "")
    return measure if measure.endswith(" cm") else ""


def _plain(name: str) -> str:
    return " ".join(name.replace("_", " ").casefold().split())


# ---- sheets ---------------------------------------------------------------------------------------------------------


def _of_sheets(paths: Sequence[Path], asked: Questions, notes: list[Note]) -> list[Reply]:
    """The replies in filled sheets, each read in a process that ends where a file is endless."""
    data = []
    for path in paths:
        with open_file(path, "sheet") as file:
            data.append(read_at_most(file, _LARGEST))
    answers = run_each("draft.release.sheet_values:values", data)
    found = []
    for path, size, answer in zip(paths, map(len, data), answers, strict=True):
        if size > _LARGEST or isinstance(answer, Failed) or not answer:
            notes.append(caution(f"`{path.name}` is no sheet that was filled in, and is left out"))
            continue
        cells = {str(name): str(value) for name, value in json.loads(answer).items()}
        _, version, of, unit = [*cells.pop(SHEET, "").splitlines(), "", "", "", ""][:4]
        cells |= {"size": of, "version": version}
        named = {name.removesuffix(" cm") + " in" if unit == "in" and name.endswith(" cm") else name: value
                 for name, value in cells.items()}  # fmt: skip
        reply = _reply(named, asked, f"`{path.name}`", notes)
        found += [reply] if reply else []
    return found


# ---- one reply ------------------------------------------------------------------------------------------------------


def _reply(cells: Mapping[str, str], asked: Questions, where: str, notes: list[Note]) -> Reply | None:
    """A reply from its cells; None, with a caution, where its size is not known or it says nothing."""
    sizes = {size.casefold(): size for size in asked.sizes}
    size = sizes.get(cells.get("size", "").strip().casefold())
    told = {name: cell for name, cell in cells.items() if cell.strip() and name not in ("size", "version")}
    if not told:
        return None
    if size is None:
        said = cells.get("size", "")[:20]
        fact = f"{where} is left out: `{said}` is no size of this pattern" if said else f"{where} says no size"
        _tell(notes, fact, *nearest(said, asked.sizes) or (f"choose from {', '.join(asked.sizes)}",))
        return None
    reader = _Cells(told, where, notes)
    return Reply(
        where=where, tester=told.get("tester", "").strip(), size=size, version=cells.get("version", "").strip(),
        measures=reader.measures(asked.measures),
        rooms=reader.steps("room", [one.name for one in asked.rooms]),
        lengths=reader.steps("length", [one.name for one in asked.lengths]),
        pulls=tuple(one.name for one in asked.rooms if told.get(f"pulls {one.name}", "").strip().casefold() in _YES),
        elsewhere=told.get("pulls elsewhere", "").strip(), cloth=told.get("cloth", "").strip(),
        again=reader.again(), words=" ".join(told.get("words", "").split()),
    )  # fmt: skip


def _tell(notes: list[Note], fact: str, *fixes: str) -> None:
    if len(notes) < MANY:
        notes.append(caution(fact, None, *fixes))


class _Cells:
    """The cells of one reply, read as what they are for."""

    def __init__(self, told: Mapping[str, str], where: str, notes: list[Note]) -> None:
        self.told, self.where, self.notes = told, where, notes

    def measures(self, names: Iterable[str]) -> dict[str, float]:
        """Her measures in mm, in whatever unit the column or the cell says."""
        found = {}
        for name in names:
            for unit in UNITS:
                if text := self.told.get(f"{name} {unit}", "").strip():
                    mm = _length(text, unit)
                    if mm is None or not _BODY[0] < mm < _BODY[1]:
                        self._left_out(name, text, f"write it as a figure in {unit}")
                    else:
                        found[name] = mm
        return found

    def steps(self, sort: str, names: Iterable[str]) -> dict[str, int]:
        """Steps of the scale, as a figure from 1 to 5 or in the words of a sheet."""
        found = {}
        for name in names:
            if text := self.told.get(f"{sort} {name}", "").strip():
                step = _step(text, sort)
                if step is None:
                    self._left_out(f"{sort} {name}", text, "write 1 (much too tight or short) to 5, with 3 for right")
                else:
                    found[name] = step
        return found

    def again(self) -> str:
        """`yes` or `no`; empty where that is not said."""
        text = self.told.get("again", "").strip().casefold()
        return "" if not text else "yes" if text in _YES else "no"

    def _left_out(self, name: str, text: str, fix: str) -> None:
        _tell(self.notes, f"{self.where}: `{text[:30]}` is nothing that `{name}` can be, and is left out", fix)


def _length(text: str, unit: str) -> float | None:
    plain = with_points(text)
    for said in (plain, f"{plain} {unit}"):
        try:
            found = read_quantity(said)
        except (QuantityError, OverflowError):
            continue
        if found.kind is Kind.LENGTH:
            return found.value
    return None


def _step(text: str, sort: str) -> int | None:
    figure = re.fullmatch(r"([1-5])(?:[.,]0)?", text)
    if figure:
        return int(figure[1])
    said = {Wording(code).say(f"feedback.{sort}_{at}").casefold(): at for code in languages() for at in SCALE}
    return said.get(" ".join(text.casefold().split()))
