"""What a verb tells, as data in place of words: `--json` gathers it, and one document is printed at the end.

A verb says its facts once more as data, from the records that its report is made of; notes and files that were written
are gathered where they are told. A mistake is told so too, with the same exit code.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from pathlib import Path

import click

from draft.base.as_data import Data, json_bytes, note_data
from draft.base.notes import Note
from draft.base.record import dataclass
from draft.command.group import commands

SHAPE = 1
"""Of what a verb tells: under one number no key is taken away or given another meaning."""
OPTION = "--json"
HELP = re.compile("--help|-h+")
"""Whoever asks for help is a person."""
AS_JSON = click.option(OPTION, is_flag=True, expose_value=False, help="Tell it as JSON, for a program to read.")


@dataclass
class Telling:
    """What one run of a verb has told so far."""

    verb: str
    facts: Data = field(default_factory=dict)
    notes: list[Note] = field(default_factory=list)
    mistake: str | None = None
    written: list[Data] = field(default_factory=list)

    def document(self, code: int) -> bytes:
        """All of it as JSON."""
        said: Data = {"verb": self.verb, "shape": SHAPE, "exit_code": code, **self.facts}
        said["notes"] = [note_data(note) for note in dict.fromkeys(self.notes)]
        if self.mistake is not None:
            said["mistake"] = self.mistake
        if self.written:
            said["written"] = self.written
        return json_bytes(said)


_NOW: list[Telling] = []


def telling() -> Telling | None:
    """What is being gathered; None where words are printed."""
    return _NOW[-1] if _NOW else None


def begin_telling(words: Sequence[str]) -> None:
    """Gather from here on, if the words that were typed are a verb's that can and ask for it."""
    _NOW.clear()
    verb = next((word for word in words if not word.startswith("-")), "")
    known = commands.verb(verb)
    if OPTION in words and known and tells(known) and not any(map(HELP.fullmatch, words)):
        _NOW.append(Telling(verb))


def tells(verb: click.Command) -> bool:
    """Whether a verb gathers what it tells."""
    return any(isinstance(each, click.Option) and OPTION in each.opts and not each.expose_value for each in verb.params)


def end_telling() -> Telling | None:
    """What was gathered, which is now over."""
    return _NOW.pop() if _NOW else None


def tell(facts: Callable[[], Data]) -> None:
    """Add facts to what is told; they are worked out only where they are asked for as data."""
    now = telling()
    if now:
        now.facts.update(facts())


def tell_written(folder: Path, files: Mapping[str, bytes]) -> None:
    """Add files that were written."""
    now = telling()
    if now:
        now.written += [
            {"file": str(folder / name), "bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
            for name, data in files.items()
        ]
