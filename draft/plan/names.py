"""Which name means what where: the names of the pattern, and those of each piece over them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import field

from draft.base.notes import Note, Span, error, nearest
from draft.base.record import dataclass
from draft.bodies.measures import MEASURES
from draft.language import tree
from draft.language.reserved import RESERVED
from draft.plan.plan import Step
from draft.plan.scopes import Scopes
from draft.plan.styles.branches import as_written

FLAT = " flat"  # the same with its elastic stretched
SEWN = " sewn"  # after an edge's name: its length once it is sewn; no name that can be written holds a space


@dataclass(frozen=True)
class Entry:
    """A declared name: where, and how its step is made once it is asked for."""

    span: Span
    make: Callable[[], Step]
    lazy: bool = False
    """Whether it is left alone until something leans on it: what was only carried over from another draft."""


def twice(named: Iterable[tuple[str, Span]]) -> list[Note]:
    """Notes on what is given a second time, where only one can count."""
    first: dict[str, Span] = {}
    notes = []
    for name, span in named:
        if name in first:
            related = [(first[name], "it is first given here")]
            notes.append(error(f"`{name}` is given twice", span, "take one of the two out", related=related))
        first.setdefault(name, span)
    return notes


@dataclass
class Names:
    """Every declared name by its full form (`bust_ease`, `front.neck`)."""

    entries: dict[str, Entry] = field(default_factory=dict)
    notes: list[Note] = field(default_factory=list)
    left_out: dict[str, tree.Branch] = field(default_factory=dict)
    """Names that are there for other options of a style."""
    no_pieces: set[str] = field(default_factory=set)
    """Pieces that are named and do not exist."""
    untaken: dict[str, tree.File] = field(default_factory=dict)
    """What the files of templates define outside of their templates, each with its file."""
    own: set[str] = field(default_factory=set)
    """The values and styles of the pattern."""
    scopes: Scopes = field(default_factory=Scopes)
    pieces: set[str] = field(default_factory=set)
    """The pieces and blocks of the pattern."""

    always: tuple[Span, ...] = ()
    """The lines of values and finished measurements that are there for every option."""
    given: dict[str, tuple[tree.Ref, str | None, bool]] = field(default_factory=dict)
    """Points and edges that are handed to templates, by their names there: what each is, in which piece, which sort."""
    edges: dict[str, tree.Edge] = field(default_factory=dict)
    """The edges of all pieces by their full names."""

    def declare(self, full: str, named: tree.Named, make: Callable[[], Step]) -> bool:
        """Add a name; a second one of the same full form is a mistake, and so is a word of the language."""
        first = self.entries.get(full)
        if named.name in RESERVED:
            hint = f"try `{named.name}_1`"
            fact = f"`{named.name}` is a word of the language, so it cannot be a name"
            self.notes.append(error(fact, named.name_span, hint))
        elif first:
            related = [(first.span, "it is first defined here")]
            fact = f"`{named.name}` is defined twice"
            self.notes.append(error(fact, named.name_span, "give one of the two another name", related=related))
            return False
        self.entries[full] = Entry(named.name_span, make)
        return True

    def find(self, ref: tree.Ref, piece: str | None) -> str | None:
        """The full name that a reference means inside `piece` (None outside any), or a note and None."""
        full = self.meant(ref, piece)
        if full is None and not self._told(ref):
            self.notes.append(self._unknown(ref, piece))
        return full

    def _told(self, ref: tree.Ref) -> bool:
        """Whether it was said before that there is no such piece: that is one mistake, however often it is named."""
        told = bool(ref.parts[1:]) and ref.parts[0] in self.no_pieces
        if ref.parts[1:] and not any(full.startswith(f"{ref.parts[0]}.") for full in self.entries):
            self.no_pieces.add(ref.parts[0])
        return told

    def meant(self, ref: tree.Ref, piece: str | None) -> str | None:
        """The full name that a reference means inside `piece`, if any."""
        full = next((full for full in self._candidates(ref, piece) if full in self.entries), None)
        return self._given(full) if full in self.given else full

    def _given(self, full: str | None) -> str | None:
        """What was handed to an input that is a point or an edge."""
        seen: list[str] = []
        while full in self.given and full not in seen:
            seen.append(full)
            ref, inside, is_edge = self.given[full]
            fitting = (n for n in self._candidates(ref, inside) if n in self.entries and self._fits(n, is_edge))
            full = next(fitting, full)
        return full

    def _fits(self, full: str, is_edge: bool) -> bool:
        return full in self.given or (full in self.edges) == is_edge

    def _candidates(self, ref: tree.Ref, piece: str | None) -> list[str]:
        if ref.parts[1:]:
            hers = self.scopes.is_closed(ref) and ref.parts[0] in self.pieces
            return [] if hers and ref.parts[0] not in self.scopes.closed[ref.span.source].values() else [ref.text]
        called = self.scopes.called(ref, ref.text)
        return [*([f"{piece}.{ref.text}"] if piece else []), *([called] if called else [])]

    def _unknown(self, ref: tree.Ref, piece: str | None) -> Note:
        first, *rest = ref.parts
        only = self.left_out.get(first) or self.left_out.get(ref.text) or self.left_out.get(f"{piece}.{ref.text}")
        if only:
            fact = f"`{ref.text}` is there only when {as_written(only)}, and another option is chosen"
            return error(fact, ref.span, *self._under(only, ref.span))
        pieces = {full.split(".")[0] for full in self.entries if "." in full and " " not in full}
        if rest and first not in pieces:
            return error(f"there is no piece called `{first}`", ref.span, *nearest(first, pieces))
        known = (
            {full for full in self.entries if full.startswith(f"{first}.") and " " not in full}
            if rest
            else self._visible(piece)
        )
        where = f"`{first}` has nothing called `{rest[0]}`" if rest else f"nothing here is called `{ref.text}`"
        return error(where, ref.span, *(self._elsewhere(ref) or nearest(ref.text, known)))

    def _under(self, only: tree.Branch, place: Span) -> tuple[str, ...]:
        """Where a line belongs that names what is there for some options alone; no other is to lose a value."""
        under = f"put this under `when {as_written(only)}`"
        lost = any(line.source is place.source and line.start <= place.start < line.end for line in self.always)
        others = ", and what it is for the others under `otherwise`" if lost else ""
        return (under + others,)

    def _elsewhere(self, ref: tree.Ref) -> tuple[str, ...]:
        """A hint for a name that is known, but not here."""
        if ref.text in MEASURES:
            return (f"add `{ref.text}` under `body`",)
        if ref.text in self.untaken:
            file = self.untaken[ref.text]
            named = ", ".join(template.name for template in file.templates)
            return (f'to take it along, write `uses "{file.span.source.name}" for {named}`, or make it an input',)
        if self.scopes.is_closed(ref) and (ref.text in self.own or ref.text in self.entries):
            return ("only names of its own file are seen here: define it in this file, or make it an input",)
        if along := [full for full in self.entries if full.startswith(f"{ref.text} of ")]:
            place = along[0].partition(" of ")[2]
            return (f"`{place}.piece` has one, which came along unseen: name it there behind `for`",)
        inside = [full for full in self.entries if full.startswith(f"{ref.text}.") and " " not in full]
        if inside:
            return (f"it is a piece: name one of its lines or points, as in `{inside[-1]}`",)
        owners = self.owners(ref.text)
        return (f"try `{owners[0]}.{ref.text}`",) if owners else ()

    def owners(self, name: str) -> list[str]:
        """The pieces that have something called `name`."""
        return [full.split(".")[0] for full in self.entries if full.endswith(f".{name}") and " " not in full]

    def knows(self, ref: tree.Ref, piece: str | None) -> bool:
        """Whether a reference inside `piece` means anything."""
        return self.meant(ref, piece) is not None

    def _visible(self, piece: str | None) -> set[str]:
        common = {full for full in self.entries if "." not in full and " " not in full}
        return common | {
            full.split(".")[1] for full in self.entries if piece and full.startswith(f"{piece}.") and " " not in full
        }
