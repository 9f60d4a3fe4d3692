"""The measures of people, kept in files on the reader's own machine: the same files that `--body` reads."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from draft.base.disk import files_in
from draft.base.notes import Problems, error
from draft.base.output import replace_file
from draft.base.output_names import safe_name
from draft.base.plainly import sentence
from draft.bodies.fit_names import unfit_name
from draft.bodies.measures import MEASURES
from draft.bodies.person import read_person
from draft.page.bench import Asked, Bench, Gave
from draft.page.request_asked import text_of, texts_of

MOST = 200


def people(_asked: Asked, bench: Bench) -> Gave:
    """Who is kept: of each `name`, `measures` in cm or degrees and `figure`; `where`, the folder that they are in."""
    if bench.people is None:
        return {"people": [], "where": ""}
    found = [kept for file in files_in(bench.people, ".toml")[:MOST] if (kept := _person(file))]
    return {"people": found, "where": str(bench.people)}


def _person(file: Path) -> dict[str, Any] | None:
    """One person as kept; None for a file that somebody has spoilt by hand."""
    try:
        found = read_person(file)
    except Problems:
        return None
    measures = {name: _written(name, float(values[0])) for name, values in found.values.items() if name in MEASURES}
    return {"name": found.names[0], "measures": measures, "figure": found.figure or ""}


def _written(name: str, value: float) -> float:
    return round(value / MEASURES[name].unit, 4)


def keep_person(asked: Asked, bench: Bench) -> Gave:
    """Keep a person under her `name`, in place of whoever was kept under it. Raises Problems where that cannot be."""
    folder = _folder(bench)
    name = text_of(asked, "name")
    unfit = unfit_name(name)
    if unfit:
        raise Problems([error(f"the name {unfit}", None, "choose another", plainly=sentence("name_unfit"))])
    figure, measures = text_of(asked, "figure"), texts_of(asked, "measures")
    lines = [f"name = {_quoted(name)}", *([f"figure = {_quoted(figure)}"] if figure else []), "", "[measures]"]
    lines += [f"{key} = {_quoted(value)}" for key, value in measures.items() if key in MEASURES]
    folder.mkdir(parents=True, exist_ok=True)
    replace_file(_file(folder, name), ("\n".join(lines) + "\n").encode())
    return people(asked, bench)


def forget_person(asked: Asked, bench: Bench) -> Gave:
    """Take away the file of a person."""
    _file(_folder(bench), text_of(asked, "name")).unlink(missing_ok=True)
    return people(asked, bench)


def _folder(bench: Bench) -> Path:
    if bench.people is None:
        fix = "bookmark its address instead: it holds them"
        raise Problems([error("this page keeps nobody's measures", None, fix, plainly=sentence("keeps_nobody"))])
    return bench.people


def _file(folder: Path, name: str) -> Path:
    known = [file for file in files_in(folder, ".toml") if (kept := _person(file)) and kept["name"] == name]
    return known[0] if known else folder / f"{safe_name(name)}.toml"


def _quoted(text: str) -> str:
    """A string as TOML writes it: a JSON string is one, but for a mark that only JSON allows."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
