"""The names of a text that may stand at a place, nearest first."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from draft.base.ending import ending
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.bodies.measures import MEASURES
from draft.editor.belonging import Wanted, Wants
from draft.editor.surroundings import Surroundings
from draft.editor.symbols import CLOTHS, JOINS, PATTERN, PIECES, TEMPLATES, NameSort, Symbol, Symbols
from draft.fabrics.properties import PROPERTIES
from draft.language import tree

KindOf = Callable[[Symbol], Kind | None]
"""The kind of a name's value, where it is known."""

_KINDS = frozenset(Kind)
_OF_PIECES = {NameSort.POINT: frozenset({Kind.POINT, Kind.ROW}), NameSort.EDGE: frozenset({Kind.EDGE})}
_VALUES = frozenset({NameSort.MEASURE, NameSort.PROPERTY, NameSort.STYLE, NameSort.VALUE, NameSort.INPUT})


@dataclass(frozen=True)
class Candidate:
    """A name that may stand at a place."""

    name: str
    what: str
    words: str = ""


@dataclass(frozen=True)
class Names:
    """The names of a text, asked for from one place in it; `before` is its line up to there."""

    symbols: Symbols
    here: Surroundings
    before: str
    kind_of: KindOf

    def wanted(self, wants: Wants) -> list[Candidate]:
        """The names that are of what is wanted."""
        found = [*self._known(wants), *self._seen(wants)]
        return list({candidate.name: candidate for candidate in reversed(found)}.values())[::-1]

    def members(self, piece: str, wants: Wants) -> list[Candidate]:
        """What a piece has that is wanted; all where nothing is known of what is."""
        marked = [s for s in self._in(f"marks of piece {piece}") if Wanted.MARKED_LINE in wants]
        of_cloth = self._in(f"cloth {piece}")
        kinds = wants & _KINDS
        own = [s for s in self.symbols.members(piece) if not kinds or self._fits(s, kinds)]
        hems = [s for s in self.symbols.members(piece) if s.sort is NameSort.EDGE]
        return [as_candidate(s) for s in marked or (hems if Wanted.JOIN in wants else own) or of_cloth]

    # ---- what has a value, a place or a line

    def _seen(self, wants: Wants) -> Iterator[Candidate]:
        kinds = wants & _KINDS
        if not kinds:
            return
        owner = self._owner()
        new = self.before.split(" ")[0]
        for symbol in self.symbols.visible(owner):
            if symbol.name != new and self._fits(symbol, kinds):
                yield as_candidate(symbol)
        if kinds & {Kind.POINT, Kind.EDGE}:
            own = self.here.owner.partition(" ")[2]
            yield from (as_candidate(symbol) for symbol in self._in(PIECES) if symbol.name != own)

    def _owner(self) -> str:
        """What a piece hands to its template is written outside of both."""
        return "" if self.here.block in ("piece", "block") and "=" in self.before else self.here.owner

    def _fits(self, symbol: Symbol, kinds: Wants) -> bool:
        if symbol.sort in _OF_PIECES:
            known = self.kind_of(symbol)
            return known in kinds if known else bool(_OF_PIECES[symbol.sort] & kinds)
        if symbol.sort not in _VALUES or not kinds - {Kind.POINT, Kind.EDGE, Kind.ROW}:
            return symbol.sort is NameSort.INPUT and self.kind_of(symbol) in kinds
        if _is_choice(self.symbols.nodes.get(symbol)):
            return False
        return (self.kind_of(symbol) or next(iter(kinds))) in kinds

    # ---- what else has a name

    def _known(self, wants: Wants) -> Iterator[Candidate]:
        for wanted, names in _NAMES.items():
            if wanted in wants:
                yield from names(self)

    def _in(self, scope: str) -> list[Symbol]:
        return [symbol for (where, _), symbol in self.symbols.declared.items() if where == scope]

    def _listed(self, *scopes: str) -> list[Candidate]:
        return [as_candidate(symbol) for scope in scopes for symbol in self._in(scope)]

    def measures(self) -> list[Candidate]:
        return [as_candidate(s) for s in self._in(PATTERN) if s.sort is NameSort.MEASURE]

    def new_measures(self) -> list[Candidate]:
        listed = {candidate.name for candidate in self.measures()}
        return [Candidate(m.name, "body measure", m.how) for m in MEASURES.values() if m.name not in listed]

    def properties(self) -> list[Candidate]:
        return [Candidate(p.name, NameSort.PROPERTY.value, p.how) for p in PROPERTIES.values() if p.drafts]

    def styles(self) -> list[Candidate]:
        inputs = self._in(self.here.owner) if self.here.owner else []
        return [as_candidate(s) for s in (*inputs, *self._in(PATTERN)) if _is_choice(self.symbols.nodes.get(s))]

    def leant_on(self) -> list[Candidate]:
        values = [as_candidate(s) for s in self.symbols.visible(self._owner()) if s.sort in _VALUES]
        return [*values, Candidate("size", "the size that is drafted")]

    def options(self) -> list[Candidate]:
        named = re.findall(r"(?:\bby|\bfor)\s+(\w+)|(\w+)\s+is\b", self._line())
        style = next(filter(None, named[-1])) if named else ""
        given = self.symbols.declared.get((self.here.owner, style))
        node = self.symbols.nodes.get(given) if given else None
        of_input = node.options if isinstance(node, tree.Input) else ()
        return self._listed(f"style {style}") or [Candidate(name, NameSort.OPTION.value) for name in of_input]

    def _line(self) -> str:
        """The line of the place; where it is a row of a point, the line above it that says by what."""
        above = self.here.above[-1] if self.here.above else ""
        return f"{above} {self.before}" if re.match(r"\w+\s+by\s+\w+$", above) else self.before

    def templates(self) -> list[Candidate]:
        return self._listed(TEMPLATES)

    def cloths(self) -> list[Candidate]:
        return self._listed(CLOTHS)

    def joins(self) -> list[Candidate]:
        return self._listed(JOINS)

    def marked_on(self) -> list[Candidate]:
        return self._listed(PIECES)

    def pieces(self) -> list[Candidate]:
        """Other drafts, blocks first."""
        own = self.here.owner.partition(" ")[2]
        new = re.match(r"(?:piece|block)\s+(\w+)", self.before)
        found = [s for s in self._in(PIECES) if s.name not in (own, new[1] if new else "")]
        return [as_candidate(s) for s in sorted(found, key=lambda s: not self._is_block(s))]

    def _is_block(self, symbol: Symbol) -> bool:
        node = self.symbols.nodes.get(symbol)
        return isinstance(node, tree.Piece) and node.is_block

    def takeups(self) -> list[Candidate]:
        own = self.here.owner.partition(" ")[2]
        return self._listed(*(f"takeups of piece {draft}" for draft in (own, *self.symbols.drafts(own))))

    def traced(self) -> list[Candidate]:
        own = self.here.owner.partition(" ")[2]
        head = re.search(r"\bfrom\s+(\w+)\s*,\s*between\b", self.before)
        drafts = [head[1], *self.symbols.drafts(head[1])] if head else self.symbols.drafts(own)
        return [as_candidate(s) for draft in drafts for s in self._edges(draft)]

    def _edges(self, draft: str) -> list[Symbol]:
        return [s for s in self.symbols.members(draft) if s.sort is NameSort.EDGE]

    def laid(self) -> list[Candidate]:
        lay = re.match(r"lay\s+(\w+)", self.before)
        return [as_candidate(s) for s in self.symbols.members(lay[1]) if s.sort in _OF_PIECES] if lay else []

    def given(self) -> list[Candidate]:
        """What a piece hands to its templates."""
        if self.here.block not in ("piece", "block") or not self.here.owner:
            return []
        templates = self.symbols.templates.get(self.here.owner.partition(" ")[2], [])
        head = re.match(r"\w+\s+\w+\s+is\s+(\w+)", self.here.above[0])
        named = dict.fromkeys([*templates, *([head[1]] if head else [])])
        return [as_candidate(s) for name in named for s in self._in(f"template {name}") if s.sort is NameSort.INPUT]

    def taken_out(self) -> list[Candidate]:
        owner = self.here.owner
        above = self.symbols.scopes(owner)[1:-1] if owner else [[PATTERN, PIECES, TEMPLATES, JOINS, "finished"]]
        return self._listed(*(scope for group in above for scope in group))

    def ends(self) -> list[Candidate]:
        """The ends of the line or the edge that is measured along."""
        line = ending(r"\bon\s+(\w+)\s+to\s+(\w+)\s*:[^:]*$", self.before)
        if line:
            return [Candidate(name, NameSort.POINT.value) for name in (line[1], line[2])]
        edge = ending(r"\bon\s+(\w+)\s*:[^:]*$", self.before)
        named = {symbol.name: symbol for symbol in self.symbols.visible(self.here.owner)}
        node = self.symbols.nodes.get(named[edge[1]]) if edge and edge[1] in named else None
        if isinstance(node, tree.Edge):
            return [Candidate(end.text, NameSort.POINT.value) for end in (node.start, node.end)]
        return list(self._seen(frozenset({Kind.POINT})))


_NAMES: dict[Wanted, Callable[[Names], list[Candidate]]] = {
    Wanted.GIVEN: Names.given,
    Wanted.MEASURE: Names.measures,
    Wanted.NEW_MEASURE: Names.new_measures,
    Wanted.PROPERTY: Names.properties,
    Wanted.STYLE: Names.styles,
    Wanted.LEANT_ON: Names.leant_on,
    Wanted.OPTION: Names.options,
    Wanted.CLOTH: Names.cloths,
    Wanted.TEMPLATE: Names.templates,
    Wanted.JOIN: Names.joins,
    Wanted.PIECE: Names.pieces,
    Wanted.TAKEUP: Names.takeups,
    Wanted.MARKED_LINE: Names.marked_on,
    Wanted.TRACED_EDGE: Names.traced,
    Wanted.LAID: Names.laid,
    Wanted.TAKEN_OUT: Names.taken_out,
    Wanted.END: Names.ends,
}


def _is_choice(node: tree.Named | None) -> bool:
    return isinstance(node, tree.StyleChoice) or (isinstance(node, tree.Input) and bool(node.options))


def as_candidate(symbol: Symbol) -> Candidate:
    """A name with what it is of."""
    sentence = MEASURES[symbol.name].how if symbol.sort is NameSort.MEASURE and symbol.name in MEASURES else ""
    return Candidate(symbol.name, symbol.sort.value, sentence)
