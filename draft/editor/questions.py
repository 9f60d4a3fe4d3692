"""What an editor asks about a place or a file, answered in the protocol's terms."""

from __future__ import annotations

from lsprotocol import types as lsp

from draft.base.notes import Source, Span
from draft.editor import complete, contents, hover
from draft.editor.hints import Hint, hints
from draft.editor.lookup import symbol_at
from draft.editor.server import PieceServer
from draft.editor.signature import Signature, signature
from draft.editor.symbols import NameSort

_SYMBOLS = {
    None: lsp.SymbolKind.File,
    NameSort.PIECE: lsp.SymbolKind.Class,
    NameSort.TEMPLATE: lsp.SymbolKind.Interface,
    NameSort.POINT: lsp.SymbolKind.Field,
    NameSort.EDGE: lsp.SymbolKind.Property,
    NameSort.STYLE: lsp.SymbolKind.Enum,
    NameSort.JOIN: lsp.SymbolKind.Event,
}
_COMPLETIONS = {
    "word": lsp.CompletionItemKind.Keyword,
    NameSort.POINT.value: lsp.CompletionItemKind.Field,
    NameSort.EDGE.value: lsp.CompletionItemKind.Property,
    NameSort.PIECE.value: lsp.CompletionItemKind.Class,
    NameSort.TEMPLATE.value: lsp.CompletionItemKind.Interface,
    NameSort.OPTION.value: lsp.CompletionItemKind.EnumMember,
}


def answer_questions(server: PieceServer) -> None:
    """What can be asked about a place or a file."""

    @server.feature(lsp.TEXT_DOCUMENT_HOVER)
    def said(ls: PieceServer, params: lsp.HoverParams) -> lsp.Hover | None:
        file = ls.file(params.text_document.uri)
        found = hover.hover(file.now, file.known, file.figures, ls.offset(file, params.position))
        if not found:
            return None
        return lsp.Hover(lsp.MarkupContent(lsp.MarkupKind.Markdown, found[0]), ls.range(found[1]))

    @server.feature(lsp.TEXT_DOCUMENT_COMPLETION, lsp.CompletionOptions(trigger_characters=["."]))
    def completions(ls: PieceServer, params: lsp.CompletionParams) -> list[lsp.CompletionItem]:
        file = ls.file(params.text_document.uri)
        found = complete.complete(file.text, file.known_while_typing, ls.offset(file, params.position), file.kind_of)
        return [_completion_item(number, completion) for number, completion in enumerate(found)]

    _answer_on_lines(server)
    _answer_on_names(server)


def _answer_on_lines(server: PieceServer) -> None:
    """What goes on while a line is written."""

    @server.feature(
        lsp.TEXT_DOCUMENT_SIGNATURE_HELP,
        lsp.SignatureHelpOptions(trigger_characters=[" ", ":", ","], retrigger_characters=[" ", ":", ","]),
    )
    def goes_on(ls: PieceServer, params: lsp.SignatureHelpParams) -> lsp.SignatureHelp | None:
        file = ls.file(params.text_document.uri)
        found = signature(file.text, ls.offset(file, params.position))
        return _signature_help(found) if found else None

    @server.feature(lsp.TEXT_DOCUMENT_INLAY_HINT)
    async def figures(ls: PieceServer, params: lsp.InlayHintParams) -> list[lsp.InlayHint]:
        file = await ls.settled(params.text_document.uri)
        shown = file.figures
        if shown is None or not file.now.whole:
            return []
        start, end = (ls.offset(file, place) for place in (params.range.start, params.range.end))
        return [_inlay_hint(ls, file.now.source, hint) for hint in hints(file.now, file.known, shown, start, end)]


def _signature_help(found: Signature) -> lsp.SignatureHelp:
    parts = [lsp.ParameterInformation(part, documentation=found.meant(part) or None) for part in found.parts]
    said = lsp.SignatureInformation(found.form, documentation=found.words, parameters=parts)
    return lsp.SignatureHelp([said], active_signature=0, active_parameter=found.next)


def _inlay_hint(ls: PieceServer, source: Source, hint: Hint) -> lsp.InlayHint:
    place = ls.range(Span(source, hint.place, hint.place)).start
    return lsp.InlayHint(place, hint.text, tooltip=hint.words, padding_left=True)


def _answer_on_names(server: PieceServer) -> None:
    """Where names are declared and used."""

    @server.feature(lsp.TEXT_DOCUMENT_DEFINITION)
    def definition(ls: PieceServer, params: lsp.DefinitionParams) -> lsp.Location | None:
        uri = params.text_document.uri
        file = ls.file(uri)
        found = symbol_at(file.now, file.known, ls.offset(file, params.position))
        places = [o.span for o in file.known.of(found[0]) if o.declares] if found else []
        return ls.location(uri, file, places[0]) if places else None

    @server.feature(lsp.TEXT_DOCUMENT_REFERENCES)
    def uses(ls: PieceServer, params: lsp.ReferenceParams) -> list[lsp.Location]:
        uri = params.text_document.uri
        file = ls.file(uri)
        found = file.now.symbols.at(file.now.source, ls.offset(file, params.position))
        known = file.now.symbols.of(found.symbol) if found else []
        spans = [o.span for o in known if params.context.include_declaration or not o.declares]
        return [place for span in spans if (place := ls.location(uri, file, span))]

    @server.feature(lsp.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def symbols(ls: PieceServer, params: lsp.DocumentSymbolParams) -> list[lsp.DocumentSymbol]:
        file = ls.file(params.text_document.uri)
        return (
            [_symbol(ls, declaration) for declaration in contents.declarations(file.now.file)] if file.now.file else []
        )


def _completion_item(number: int, completion: complete.Completion) -> lsp.CompletionItem:
    kind = _COMPLETIONS.get(completion.what, lsp.CompletionItemKind.Variable)
    order = f"{number:04d}"  # nearest names first, words last
    return lsp.CompletionItem(
        completion.text, kind=kind, detail=completion.what, documentation=completion.words, sort_text=order
    )


def _symbol(ls: PieceServer, declaration: contents.Declaration) -> lsp.DocumentSymbol:
    inside = [_symbol(ls, child) for child in declaration.inside]
    kind = _SYMBOLS.get(declaration.sort, lsp.SymbolKind.Variable)
    detail = declaration.sort.value if declaration.sort else "pattern"
    return lsp.DocumentSymbol(
        declaration.name,
        kind,
        ls.range(declaration.span),
        ls.range(declaration.name_span),
        detail=detail,
        children=inside,
    )
