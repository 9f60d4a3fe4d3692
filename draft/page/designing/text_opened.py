"""Opening: the designer's own file, a pattern of the bundle, or an empty leaf; and what can be chosen for each."""

from __future__ import annotations

from typing import Any

from draft.base.envelope import within
from draft.base.notes import Problems
from draft.base.textfile import read_source
from draft.editor.complete import spelled_words
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import desk, file_of
from draft.page.designing.whom_asked import charts
from draft.plan.library import bundled_files
from draft.plan.plan import Style


def open_text(asked: Asked, bench: Bench) -> Gave:
    """The `text` of a `garment`, `file` for the one that was opened; its `name`, and whether it `saves`.

    With it the `shelf`, the `charts`, and the `words` of the language.

    Raises `Problems` where it cannot be read.
    """
    path, name = file_of(asked, bench)
    own = bench.file is not None and path == bench.file
    is_there = own or str(asked.get("garment")) in bundled_files()
    text = read_source(path, "pattern").text if is_there else ""
    return {
        "text": text,
        "name": name,
        "saves": own and not within(path),
        "file": bench.file.name if bench.file else "",
        "shelf": list(bundled_files()),
        "charts": list(charts()),
        "words": sorted({word for words in spelled_words().values() for phrase in words for word in phrase.split()}),
    }


def choices_of(asked: Asked, bench: Bench) -> Gave:
    """What can be chosen of a `text`: its `styles` with their limits, and the `measures` that it asks for.

    Nothing of a text with mistakes.
    """
    try:
        plan = desk(asked, bench).file.now.plan
    except Problems:
        plan = None
    if plan is None:
        return {"styles": [], "measures": []}
    measures = [{"name": name, "how": plan.known[name].how} for name in plan.measures]
    return {"styles": [_style(style) for style in plan.styles], "measures": measures}


def _style(style: Style) -> dict[str, Any]:
    return {
        "name": style.name,
        "words": style.words,
        "own": style.set_to,
        "limits": style.limits,
        "ends": list(style.ends),
        "choice": style.is_choice,
    }
