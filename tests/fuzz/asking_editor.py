"""What an editor asks about a file, at places by chance: nothing that a text says may make an answer fail."""

from __future__ import annotations

import random
from pathlib import Path

from draft.base.notes import show
from draft.base.resources import folder
from draft.editor import contents
from draft.editor.complete import complete
from draft.editor.hover import hover
from draft.editor.lookup import symbol_at
from draft.editor.open_file import OpenFile
from draft.editor.rename import Refused, rename


def ask_editor(name: str, chance: random.Random) -> int:
    """Open a file, and ask at some places of it. Gives 0, or raises what an answer raised."""
    text = Path(name).read_bytes().decode("utf-8", "replace")
    document = OpenFile(name, Path.cwd())
    document.change(text)
    for note, span in document.notes():
        assert show([note]) and span.start <= span.end
    if document.now.file:
        contents.declarations(document.now.file)
    for _ in range(5):
        _ask_at(document, chance.randint(0, len(document.text)))
    return 0


def _ask_at(document: OpenFile, place: int) -> None:
    hover(document.now, document.known, document.figures, place)
    complete(document.text, document.known, place)
    symbol_at(document.now, document.known, place)
    try:
        rename(document.now, place, "another", folder("pieces"))
    except Refused as reason:
        assert str(reason)
