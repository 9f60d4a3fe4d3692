"""Every name of a file: where it is declared, where it is used, and what it means there.

This works on the tree alone, so that it also serves a text that has no plan yet.
"""

from __future__ import annotations

from dataclasses import field
from enum import Enum

from draft.base.notes import Source, Span
from draft.base.record import dataclass
from draft.language import tree

PATTERN, PIECES, TEMPLATES, JOINS, CLOTHS = (
    "",
    "pieces",
    "templates",
    "joins",
    "cloths",
)  # scopes of the names that stand outside of pieces


class NameSort(Enum):
    """What a name is of; the text is how an editor names it."""

    MEASURE = "body measure"
    PROPERTY = "property of cloth"
    CLOTH = "cloth"
    STYLE = "style"
    OPTION = "option of a style"
    VALUE = "value"
    INPUT = "input"
    POINT = "point"
    EDGE = "edge"
    TAKEUP = "dart or pleat"
    MARK = "mark"
    PIECE = "piece"
    TEMPLATE = "template"
    JOIN = "join"
    FINISHED = "measurement"


@dataclass(frozen=True)
class Symbol:
    """One name in its scope: the pattern, `piece front`, `template half_top`, `style neckline` and the like."""

    scope: str
    name: str
    sort: NameSort


@dataclass(frozen=True)
class Occurrence:
    """One place where a name stands."""

    span: Span
    symbol: Symbol
    declares: bool = False


@dataclass
class Symbols:
    """The names of a file and of those that it uses."""

    occurrences: list[Occurrence] = field(default_factory=list)
    declared: dict[tuple[str, str], Symbol] = field(default_factory=dict)
    nodes: dict[Symbol, tree.Named] = field(default_factory=dict)
    made: dict[str, list[str]] = field(default_factory=dict)
    """The pieces that are made from each template."""
    templates: dict[str, list[str]] = field(default_factory=dict)
    """The templates of each piece: several where each is for another option of a style."""
    traced: dict[str, str] = field(default_factory=dict)
    """The draft that each block or piece is traced from."""
    prefixes: dict[str, list[str]] = field(default_factory=dict)
    """Of each block or piece, what the names of something laid on it, or carried on to it, begin with."""
    bases: dict[str, str] = field(default_factory=dict)
    """The template that each template is made from."""
    unknown: list[tree.Ref] = field(default_factory=list)
    """References that mean nothing."""

    def at(self, source: Source, offset: int) -> Occurrence | None:
        """The name at a place of a text, or the one that ends there."""
        here = [o for o in self.occurrences if o.span.source is source and o.span.start <= offset <= o.span.end]
        return min(here, key=lambda o: (o.span.end == offset, not o.declares), default=None)

    def of(self, symbol: Symbol) -> list[Occurrence]:
        """Every place where a name stands."""
        return [o for o in self.occurrences if o.symbol == symbol]

    def with_missing(self, other: Symbols) -> Symbols:
        """These names, and those of another text that are not among them."""
        missing = {key: symbol for key, symbol in other.declared.items() if key not in self.declared}
        lost = set(missing.values())
        return Symbols(
            [*self.occurrences, *(o for o in other.occurrences if o.symbol in lost)],
            self.declared | missing,
            {symbol: node for symbol, node in other.nodes.items() if symbol in lost} | self.nodes,
            other.made | self.made,
            other.templates | self.templates,
            other.traced | self.traced,
            other.prefixes | self.prefixes,
            other.bases | self.bases,
        )

    def scopes(self, owner: str) -> list[list[str]]:
        """The scopes that are looked through for a name in `piece front`, `template half_top` or the pattern.

        The first group counts in which a name is found; in several scopes of a group it may mean any of them.
        """
        sort, _, name = owner.partition(" ")
        if sort == "piece":
            drafts = [scope for draft in self.drafts(name) for scope in ([f"piece {draft}"], self._made(draft))]
            return [[owner], self._made(name), *drafts, [PATTERN]]
        if sort == "template":
            own = [[scope] for scope in self._from(name)]
            return [*own, [f"piece {piece}" for piece in self.made.get(name, [])], [PATTERN]]
        return [[PATTERN]]

    def _made(self, piece: str) -> list[str]:
        """The templates that a piece is made from."""
        return [t for template in self.templates.get(piece, []) for t in self._from(template)]

    def drafts(self, piece: str) -> list[str]:
        """The drafts that a block or piece is traced from, the nearest first."""
        found: list[str] = []
        while (draft := self.traced.get(found[-1] if found else piece)) and draft not in (*found, piece):
            found.append(draft)
        return found

    def is_laid(self, piece: str, name: str) -> bool:
        """Whether a name begins as those do that a move on a block or piece gives."""
        begun = [prefix for draft in (piece, *self.drafts(piece)) for prefix in self.prefixes.get(draft, [])]
        return any(name.startswith(prefix) for prefix in begun)

    def sharing(self, scope: str) -> set[str]:
        """The scopes whose lines take the place of those of their names in this one, or the other way."""
        made = [(f"piece {piece}", template) for piece, used in self.templates.items() for template in used]
        made += [(f"template {name}", base) for name, base in self.bases.items()]
        found = {above for line, used in made if line == scope for above in self._from(used)}
        return found | {line for line, used in made if scope in self._from(used)}

    def _from(self, template: str) -> list[str]:
        """The scopes of a template and of those that it is made from."""
        names: list[str] = []
        while template and template not in names:
            names.append(template)
            template = self.bases.get(template, "")
        return [f"template {name}" for name in names]

    def visible(self, owner: str) -> list[Symbol]:
        """The values, points and edges that can be named there, nearest first."""
        found: dict[str, Symbol] = {}
        for scope in (scope for group in self.scopes(owner) for scope in group):
            for (where, name), symbol in self.declared.items():
                if where == scope:
                    found.setdefault(name, symbol)
        return list(found.values())

    def members(self, piece: str) -> list[Symbol]:
        """What a piece has."""
        return [symbol for symbol in self.visible(f"piece {piece}") if symbol.scope != PATTERN]

    def full_names(self, symbol: Symbol) -> list[str]:
        """The names of its steps in a plan: one for each piece that a template's name belongs to."""
        sort, _, owner = symbol.scope.partition(" ")
        if symbol.scope == PATTERN:
            return [symbol.name]
        pieces = [owner] if sort == "piece" else self.made.get(owner, []) if sort == "template" else []
        return [f"{piece}.{symbol.name}" for piece in pieces]
