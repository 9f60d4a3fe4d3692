"""One table of a studio's file, line by line: each is taken as what it is asked for, with a note where it is not.

What nobody has asked for at the end is unknown.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from draft.base.notes import MANY, Note, Source, Span, error, nearest
from draft.base.toml import place
from draft.base.visible import visible

_Read = TypeVar("_Read")
_Word = TypeVar("_Word", bound=str)


class Lines:
    """The lines of one table, by their keys; `within` is the table's own name."""

    def __init__(self, source: Source, table: object, notes: list[Note], within: str = "") -> None:
        self.source, self.notes, self.within = source, notes, within
        self._known: list[str] = []
        self._left: dict[str, object] = {}
        if isinstance(table, dict):
            self._left = {str(key): value for key, value in table.items()}
        else:
            self.note(f"`{within}` is not a table", within, f"write `[{within}]` in a line of its own, lines below it")

    def at(self, key: str) -> Span | None:
        """Where a key stands."""
        return place(self.source, key, self.within if key != self.within else "")

    def note(self, fact: str, key: str, *fixes: str) -> None:
        """Say what is wrong with a line, unless there is enough said already."""
        if len(self.notes) < MANY:
            self.notes.append(error(fact, self.at(key), *fixes))

    def take(self, key: str) -> object | None:
        """What a line says as it stands; None where it is not there."""
        self._known.append(key)
        return self._left.pop(key, None)

    def text(self, key: str, most: int, example: str) -> str:
        """One text of at most so many letters; empty where it is not there."""
        given = self.take(key)
        return "" if given is None else self._plain(given, key, most, f'write `{key} = "{example}"`')

    def texts(self, key: str, most: int, example: str) -> tuple[str, ...]:
        """Several texts, or one."""
        given = self.take(key)
        each = given if isinstance(given, list) else [] if given is None else [given]
        found = (self._plain(one, key, most, f"write `{key} = {example}`") for one in each)
        return tuple(text for text in found if text)

    def choice(self, key: str, options: Sequence[_Word]) -> _Word | None:
        """One of some words; None where it is not there."""
        given = self.take(key)
        return None if given is None else self._one(given, key, options)

    def choices(self, key: str, options: Sequence[_Word]) -> tuple[_Word, ...] | None:
        """Several of some words, each once; None where the line is not there."""
        given = self.take(key)
        if given is None:
            return None
        each = given if isinstance(given, list) else [given]
        return tuple(dict.fromkeys(found for one in each if (found := self._one(one, key, options))))

    def flag(self, key: str) -> bool:
        """`true` or `false`; false where it is not there."""
        given = self.take(key)
        if given is not None and not isinstance(given, bool):
            self.note(f"`{key}` is neither true nor false", key, f"write `{key} = true`, without quotes")
        return given is True

    def read(self, key: str, how: Callable[[object, str, Span | None], _Read | Note], usual: _Read) -> _Read:
        """What a function makes of a line, or its note; `usual` where the line is not there or cannot be read."""
        given = self.take(key)
        return usual if given is None else self._made(how(given, key, self.at(key)), usual)

    def each(self, how: Callable[[object, str, Span | None], _Read | Note]) -> dict[str, _Read]:
        """All lines that are left, each as a function makes of it."""
        left, self._left = self._left, {}
        found = {key: self._made(how(given, key, self.at(key)), None) for key, given in left.items()}
        return {key: value for key, value in found.items() if value is not None}

    def _made(self, made: _Read | Note, usual: _Read) -> _Read:
        if not isinstance(made, Note):
            return made
        if len(self.notes) < MANY:
            self.notes.append(made)
        return usual

    def end(self) -> None:
        """Say which lines nobody knows."""
        where = f"`[{self.within}]`" if self.within else "a studio's file"
        for key in self._left:
            hint = nearest(key, self._known) or (f"{where} may say: {', '.join(self._known)}",)
            self.note(f"`{key[:60]}` is nothing that {where} says", key, *hint)

    def _plain(self, given: object, key: str, most: int, fix: str) -> str:
        if not isinstance(given, str):
            self.note(f"`{key}` is not a text in quotes", key, fix)
            return ""
        text = " ".join(given.split())
        if len(text) > most:
            self.note(f"`{key}` has {len(text)} letters, more than the {most} that are printed", key, "say it shorter")
        if visible(text) != text:
            self.note(f"`{key}` holds what cannot be seen", key, "type it anew in plain letters")
        return text

    def _one(self, given: object, key: str, options: Sequence[_Word]) -> _Word | None:
        text = given.strip().lower() if isinstance(given, str) else ""
        for option in options:
            if text == option:
                return option
        said = f"`{given}`" if isinstance(given, str) else "what stands there"
        hint = nearest(text, options) or (f"choose from {', '.join(options)}",)
        self.note(f"{said[:62]} is nothing that `{key}` may be", key, *hint)
        return None
