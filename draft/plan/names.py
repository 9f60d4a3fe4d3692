"""Which name means what where: the names of the pattern, and those of each piece over them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from draft.language import tree
from draft.language.grammar import reserved_words
from draft.notes import Note, Span, error, nearest
from draft.plan.plan import Step

SEWN = " sewn"  # after an edge's name: its length once it is sewn; no name that can be written holds a space


@dataclass(frozen=True)
class Entry:
    """A declared name: where, and how its step is made once it is asked for."""

    span: Span
    make: Callable[[], Step | None]


@dataclass
class Names:
    """Every declared name by its full form (`bust_ease`, `front.neck`)."""

    entries: dict[str, Entry] = field(default_factory=dict)
    notes: list[Note] = field(default_factory=list)

    def declare(self, full: str, named: tree.Named, make: Callable[[], Step | None]) -> bool:
        """Add a name; a second one of the same full form is a mistake, and so is a word of the language."""
        first = self.entries.get(full)
        if named.name in reserved_words():
            hint = f"try `{named.name}_1`"
            self.notes.append(error(f"`{named.name}` is a word of the language", named.name_span, hint))
        elif first:
            related = [(first.span, "it is first defined here")]
            self.notes.append(error(f"`{named.name}` is defined twice", named.name_span, related=related))
            return False
        self.entries[full] = Entry(named.name_span, make)
        return True

    def find(self, ref: tree.Ref, piece: str | None) -> str | None:
        """The full name that a reference means inside `piece` (None outside any), or a note and None."""
        for full in self._candidates(ref, piece):
            if full in self.entries:
                return full
        self.notes.append(self._unknown(ref, piece))
        return None

    def _candidates(self, ref: tree.Ref, piece: str | None) -> list[str]:
        own = [f"{piece}.{ref.text}"] if piece and len(ref.parts) == 1 else []
        return [*own, ref.text]

    def _unknown(self, ref: tree.Ref, piece: str | None) -> Note:
        first, *rest = ref.parts
        pieces = {full.split(".")[0] for full in self.entries if "." in full}
        if rest and first not in pieces:
            return error(f"there is no piece called `{first}`", ref.span, *nearest(first, pieces))
        known = {full for full in self.entries if full.startswith(f"{first}.")} if rest else self._visible(piece)
        where = f"`{first}` has nothing called `{rest[0]}`" if rest else f"nothing here is called `{ref.text}`"
        return error(where, ref.span, *nearest(ref.text, known))

    def _visible(self, piece: str | None) -> set[str]:
        common = {full for full in self.entries if "." not in full}
        return common | {full.split(".")[1] for full in self.entries if piece and full.startswith(f"{piece}.")}
