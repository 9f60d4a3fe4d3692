"""Going over a tree to find what each name in it means."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from draft.base.notes import Span
from draft.editor.seen import seen_of, templates_of
from draft.editor.symbols import CLOTHS, JOINS, PATTERN, PIECES, TEMPLATES, NameSort, Occurrence, Symbol, Symbols
from draft.language import tree
from draft.language.walking import nodes

Others = Sequence[tuple[tree.File, tuple[str, ...] | None]]
"""Files that a pattern varies or takes from, each with the names that are seen of it, or None where all are."""


def symbols(main: tree.File, used: Sequence[tree.File] = (), others: Others = ()) -> Symbols:
    """The names of a file, of the templates that it uses, and of what it varies and takes from other files."""
    found = Symbols()
    seen = [seen_of(file, names) for file, names in others]
    for piece in [piece for file in (main, *seen) for piece in file.pieces]:
        for template in templates_of(piece):
            found.templates.setdefault(piece.name, []).append(template.text)
            found.made.setdefault(template.text, []).append(piece.name)
        if piece.origin:
            found.traced[piece.name] = piece.origin.draft.text
    for file in (main, *used, *seen):
        found.bases |= {template.name: template.base.text for template in file.templates if template.base}
    walker = _Walker(found, (main, *used, *seen))
    for file in (main, *used):
        walker.declare(file, main)
    for file in seen:
        walker.declare(file, file)
    for file in (main, *used):
        walker.use(file, main)
    return found


def _named_elsewhere(node: tree.Node) -> tuple[str, tree.Ref] | None:
    """The cloth that a piece is cut of, or the seam that an edge is stitched down on, and among which names it is."""
    if isinstance(node, tree.CutPart) and node.cloth:
        return CLOTHS, node.cloth
    return (JOINS, node.onto) if isinstance(node, tree.Join) and node.onto else None


class _Walker:
    def __init__(self, found: Symbols, files: Sequence[tree.File] = ()) -> None:
        self.found = found
        inputs = [line for file in files for template in file.templates for line in template.body.inputs]
        self.choices = {line.name for line in inputs if line.options}
        self.offered = {option for line in inputs for option in line.options}

    # ---- declarations

    def declare(self, file: tree.File, main: tree.File) -> None:
        """The names that a file declares; of a used file only its templates count."""
        for template in file.templates:
            self._named(TEMPLATES, template, NameSort.TEMPLATE)
            self._body(f"template {template.name}", template.body)
        if file is not main:
            return
        for sort, lines in (
            (NameSort.MEASURE, file.measures),
            (NameSort.PROPERTY, file.properties),
            (NameSort.STYLE, file.styles),
            (NameSort.VALUE, file.values),
            (NameSort.VALUE, tuple(u for solve in file.solves for u in solve.unknowns)),
        ):
            for line in lines:
                self._named(PATTERN, line, sort)
        for style in file.styles:
            if isinstance(style, tree.StyleChoice):
                self._options(style)
        self._cloths(file)
        for piece in file.pieces:
            self._named(PIECES, piece, NameSort.PIECE)
            self._body(f"piece {piece.name}", piece.body)
        for join in (*file.joins, *file.patches):
            self._named(JOINS, join, NameSort.JOIN)
        for measured in file.finished:
            self._named("finished", measured, NameSort.FINISHED)

    def _cloths(self, file: tree.File) -> None:
        for cloth in file.cloths:
            self._named(CLOTHS, cloth, NameSort.CLOTH)
            for line in cloth.properties:
                self._named(f"cloth {cloth.name}", line, NameSort.PROPERTY)

    def _body(self, scope: str, body: tree.Contents) -> None:
        for where, sort, lines in (
            (scope, NameSort.INPUT, body.inputs),
            (scope, NameSort.VALUE, body.values),
            (scope, NameSort.POINT, body.points),
            (scope, NameSort.EDGE, (*body.edges, *body.lines)),
            (f"takeups of {scope}", NameSort.TAKEUP, body.takeups),
            (f"marks of {scope}", NameSort.MARK, body.marks),
        ):
            for line in lines:
                self._named(where, line, sort)
        for move in body.moves:
            self._move(scope, move)

    def _move(self, scope: str, move: tree.Move) -> None:
        """The names that a move gives."""
        prefixes = self.found.prefixes.setdefault(scope.partition(" ")[2], [])
        if isinstance(move, tree.Close) and isinstance(move.into, tree.Opened):
            self._named(f"takeups of {scope}", move.into, NameSort.TAKEUP)
        elif isinstance(move, tree.Extend):
            self._named(scope, move, NameSort.EDGE)
            prefixes.append(f"{move.name}_")
        elif isinstance(move, tree.Lay):
            prefixes.append(f"{move.word}_")

    def _options(self, style: tree.StyleChoice) -> None:
        begin = style.default_span.end
        text = style.span.source.text[begin : style.span.end]
        words = [word for word in re.finditer(r'"[^"]*"|\w+', text) if word[0][0] != '"']
        for word in words[1 : len(style.options) + 1]:
            symbol = Symbol(f"style {style.name}", word[0], NameSort.OPTION)
            self.found.declared.setdefault((symbol.scope, symbol.name), symbol)
            self.found.nodes.setdefault(symbol, style)
            self._add(Span(style.span.source, begin + word.start(), begin + word.end()), symbol, declares=True)
        self._option(style.name, style.default, style.default_span)

    def _named(self, scope: str, line: tree.Named, sort: NameSort) -> None:
        symbol = self.found.declared.setdefault((scope, line.name), Symbol(scope, line.name, sort))
        self.found.nodes.setdefault(symbol, line)
        self._add(line.name_span, symbol, declares=True)

    # ---- uses

    def use(self, file: tree.File, main: tree.File) -> None:
        """The names that a file uses."""
        for template in file.templates:
            if template.base:
                self._known(TEMPLATES, template.base.text, template.base.span)
            self._within(template.body, f"template {template.name}")
        for condition in file.conditions:
            self._refs(nodes(condition), PATTERN)
        if file is not main:
            return
        for piece in file.pieces:
            self._piece(piece)
        self._taken(file)
        outside = (file.patterns, file.styles, file.values, file.solves, file.joins, file.finished, file.checks)
        for part in (node for group in outside for node in group):
            self._refs(nodes(part), PATTERN)
        for patch in file.patches:
            self._known(PIECES, patch.piece.text, patch.piece.span)
            self._marked(patch.onto)
        self._booklet(file)
        for notion in file.notions:
            self._refs(nodes(notion.amount) if notion.amount else (), PATTERN)
            for use in notion.uses:
                self._step(use)

    def _taken(self, file: tree.File) -> None:
        """What is taken of other files by its name."""
        settings = [setting for head in file.patterns for setting in head.settings]
        for taken in [setting for setting in settings if isinstance(setting, tree.Uses)]:
            for name, span in zip(taken.names, taken.name_spans, strict=True):
                for scope in (PATTERN, PIECES, TEMPLATES):
                    self._known(scope, name, span)

    def _booklet(self, file: tree.File) -> None:
        """Steps name joins, edges of pieces, and steps of the designer's own, which are declared nowhere else."""
        advice = [line for line in file.booklet if isinstance(line, tree.Advice)]
        own = {line.to.text for line in advice if line.beside}
        for ref in [ref for line in advice for ref in (line.to, line.beside) if ref]:
            if ref.text not in own:
                self._step(ref)

    def _of_piece(self, ref: tree.Ref) -> None:
        """An edge of a piece, or marks on it."""
        marked = (f"marks of piece {ref.parts[0]}", ref.parts[1]) in self.found.declared
        (self._marked if marked else self._member)(ref)

    def _step(self, ref: tree.Ref) -> None:
        """A step of the booklet sews a join, or hems an edge of a piece."""
        if len(ref.parts) == 2:
            self._of_piece(ref)
        elif not self._known(JOINS, ref.text, ref.span):
            self.found.unknown.append(ref)

    def _piece(self, piece: tree.Piece) -> None:
        owner = f"piece {piece.name}"
        templates = templates_of(piece)
        for template in templates:
            self._known(TEMPLATES, template.text, template.span)
        for line in piece.body.given:
            scopes = self.found.scopes(owner)[1]
            self._found([[scope] for scope in scopes], line.name, line.name_span)
            self._refs(nodes(line.value), PATTERN)
        if piece.origin:
            self._known(PIECES, piece.origin.draft.text, piece.origin.draft.span)
            self._refs(piece.origin.between, f"piece {piece.origin.draft.text}")
        for move in piece.body.moves:
            if isinstance(move, tree.Lay):
                self._known(PIECES, move.draft.text, move.draft.span)
                laid = [move.first, *(move.towards or ())[:1]]
                self._refs(laid, f"piece {move.draft.text}")
        self._within(piece.body, owner)

    def _within(self, body: tree.Contents, owner: str) -> None:
        given = {id(node) for line in (*body.given, *body.after) for node in nodes(line)}
        lays = [move for move in body.moves if isinstance(move, tree.Lay)]
        given |= {id(ref) for lay in lays for ref in (lay.draft, lay.first, *(lay.towards or ())[:1])}
        self._refs((node for node in nodes(body) if id(node) not in given), owner)

    def _refs(self, found: Iterable[tree.Node], owner: str) -> None:
        of_styles: set[int] = set()
        elsewhere: set[int] = set()
        for node in found:
            if named := _named_elsewhere(node):
                scope, ref = named
                elsewhere.add(id(ref))
                if not self._known(scope, ref.text, ref.span):
                    self.found.unknown.append(ref)
            if isinstance(node, tree.By):
                of_styles.add(id(node.subject))
                self._rows(node)
            elif isinstance(node, tree.ChoiceIs):
                of_styles.add(id(node.style))
                for option, span in zip(node.options, node.option_spans, strict=True):
                    self._option(node.style.text, option, span)
            elif isinstance(node, tree.Ref) and id(node) not in elsewhere:
                self._ref(node, owner, id(node) in of_styles)

    def _rows(self, by: tree.By) -> None:
        for row in by.rows:
            if isinstance(row.key, tree.Options):
                for name, span in zip(row.key.names, row.key.name_spans, strict=True):
                    self._option(by.subject.text, name, span)

    def _option(self, style: str, option: str, span: Span) -> None:
        self._known(f"style {style}", option, span)

    def _ref(self, ref: tree.Ref, owner: str, of_style: bool) -> None:
        if len(ref.parts) == 2:
            self._member(ref)
            return
        scopes = self.found.scopes(owner)
        if of_style and self._is_style(ref.text):
            scopes = [[PATTERN]]
        if self._found(scopes, ref.text, ref.span) or self._on_sheet(owner, ref.text, ref.span) or ref.text == "size":
            return
        if ref.text not in (self.choices if of_style else self.offered):
            self.found.unknown.append(ref)

    def _on_sheet(self, owner: str, name: str, span: Span) -> bool:
        """Whether a name is a dart of a block or piece or of what it is traced from, or one that a move gave."""
        piece = owner.partition(" ")[2]
        darts = [f"takeups of piece {draft}" for draft in (piece, *self.found.drafts(piece))]
        return any(self._known(scope, name, span) for scope in darts) or self.found.is_laid(piece, name)

    def _found(self, scopes: list[list[str]], name: str, span: Span) -> bool:
        """Whether a name is known in one of the groups of scopes; every scope of that group is noted."""
        return any(sum(self._known(scope, name, span) for scope in group) for group in scopes)

    def _is_style(self, name: str) -> bool:
        symbol = self.found.declared.get((PATTERN, name))
        return symbol is not None and symbol.sort is NameSort.STYLE

    def _member(self, ref: tree.Ref) -> None:
        piece, name = ref.parts
        span = ref.span
        begin = Span(span.source, span.start, span.start + len(piece))
        there = Span(span.source, span.end - len(name), span.end)
        if self._known(f"cloth {piece}", name, there):
            self._known(CLOTHS, piece, begin)
            return
        self._known(PIECES, piece, begin)
        known = self._found(self.found.scopes(f"piece {piece}")[:-1], name, there)
        if not known and not self._on_sheet(f"piece {piece}", name, there):
            self.found.unknown.append(ref)

    def _marked(self, ref: tree.Ref) -> None:
        """A line marked on a piece."""
        piece, name = ref.parts[0], ref.parts[-1]
        span = ref.span
        self._known(PIECES, piece, Span(span.source, span.start, span.start + len(piece)))
        there = Span(span.source, span.end - len(name), span.end)
        if not self._known(f"marks of piece {piece}", name, there):
            self.found.unknown.append(ref)

    def _known(self, scope: str, name: str, span: Span) -> bool:
        symbol = self.found.declared.get((scope, name))
        if symbol:
            self._add(span, symbol)
        return symbol is not None

    def _add(self, span: Span, symbol: Symbol, declares: bool = False) -> None:
        self.found.occurrences.append(Occurrence(span, symbol, declares))
