"""What only some options of a style have: lines and pieces that are left out where another option is chosen."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol, TypeVar

from draft.base.notes import Note, error, nearest
from draft.language import tree

Settings = dict[str, tuple[str, tuple[str, ...]]]
"""For each choice of the styles: what it is set to, and its options."""


class _Optional(Protocol):
    @property
    def only(self) -> tree.OnlyFor | None: ...


Line = TypeVar("Line", bound=_Optional)


class Choices:
    """Decides which lines are there."""

    def __init__(self, settings: Settings, notes: list[Note]) -> None:
        self.settings = settings
        self.notes = notes

    def kept(self, lines: Iterable[Line]) -> tuple[Line, ...]:
        """The lines that the chosen options have; a note for a style or option that does not exist."""
        return tuple(line for line in lines if self.has(line.only))

    def has(self, only: tree.OnlyFor | None) -> bool:
        """Whether something that is only for some options is there."""
        if only is None:
            return True
        found = self.settings.get(only.style.text)
        if not found:
            style = only.style.text
            fix = f"choices are declared under `style`, as in `{style} {only.options[0]} of {', '.join(only.options)}`"
            self._note(f"`{style}` is not a choice of the styles", only, nearest(style, self.settings) or (fix,))
            return True
        chosen, options = found
        for option in only.options:
            if option not in options:
                hint = nearest(option, options) or (f"choose from {', '.join(options)}",)
                self._note(f"`{only.style.text}` has no option `{option}`", only, hint)
        return chosen in only.options

    def _note(self, fact: str, only: tree.OnlyFor, hints: tuple[str, ...]) -> None:
        note = error(fact, only.span, *hints)
        if note not in self.notes:
            self.notes.append(note)
