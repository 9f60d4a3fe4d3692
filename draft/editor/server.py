"""The language server: this room's answers in the Language Server Protocol (version 3.17), over standard streams."""

from __future__ import annotations

import gc
import logging
from pathlib import Path

from lsprotocol import types as lsp
from pygls import uris
from pygls.exceptions import JsonRpcException
from pygls.lsp.server import LanguageServer

from draft import __version__
from draft.base.notes import Note, Problems, Severity, Source, Span
from draft.base.resources import folder
from draft.editor import complete, contents, hover, rename
from draft.editor.lookup import symbol_at
from draft.editor.open_file import Document
from draft.editor.positions import UTF_16, offset_of, place_of
from draft.editor.symbols import Sort
from draft.language.tidy import tidy

REFUSED = -32803  # the protocol's code for a request that is understood and cannot be met

_SEVERITIES = {
    Severity.ERROR: lsp.DiagnosticSeverity.Error,
    Severity.CAUTION: lsp.DiagnosticSeverity.Warning,
    Severity.REMARK: lsp.DiagnosticSeverity.Information,
}
_SYMBOLS = {
    None: lsp.SymbolKind.File,
    Sort.PIECE: lsp.SymbolKind.Class,
    Sort.TEMPLATE: lsp.SymbolKind.Interface,
    Sort.POINT: lsp.SymbolKind.Field,
    Sort.EDGE: lsp.SymbolKind.Property,
    Sort.STYLE: lsp.SymbolKind.Enum,
    Sort.JOIN: lsp.SymbolKind.Event,
}
_CHOICES = {
    "word": lsp.CompletionItemKind.Keyword,
    Sort.POINT.value: lsp.CompletionItemKind.Field,
    Sort.EDGE.value: lsp.CompletionItemKind.Property,
    Sort.PIECE.value: lsp.CompletionItemKind.Class,
    Sort.TEMPLATE.value: lsp.CompletionItemKind.Interface,
    Sort.OPTION.value: lsp.CompletionItemKind.EnumMember,
}


class PieceServer(LanguageServer):
    """The server with the files that are open."""

    def __init__(self) -> None:
        super().__init__("plainseam", __version__)
        self.open: dict[str, Document] = {}

    def look_at(self, uri: str) -> None:
        """Look at the text of a file anew and tell the editor what there is to say."""
        document = self.open.get(uri) or self._opened(uri)
        document.change(self.workspace.get_text_document(uri).source)
        found = [self._diagnostic(document, note, span) for note, span in document.notes()]
        self.text_document_publish_diagnostics(lsp.PublishDiagnosticsParams(uri, found))

    def _opened(self, uri: str) -> Document:
        path = Path(uris.to_fs_path(uri) or folder("pieces") / "untitled.piece")
        return self.open.setdefault(uri, Document(path.name, path.parent))

    # ---- places

    @property
    def encoding(self) -> str:
        """The units in which the editor counts letters."""
        return str(getattr(self.workspace.position_encoding, "value", self.workspace.position_encoding) or UTF_16)

    def offset(self, document: Document, position: lsp.Position) -> int:
        """The offset of a place in a file's text."""
        return offset_of(document.text, position.line, position.character, self.encoding)

    def range(self, span: Span) -> lsp.Range:
        """A stretch of a text."""
        text = span.source.text
        ends = (place_of(text, place, self.encoding) for place in (span.start, span.end))
        return lsp.Range(*(lsp.Position(*end) for end in ends))

    def location(self, uri: str, document: Document, span: Span) -> lsp.Location | None:
        """A stretch of this file or of one that it uses."""
        if span.source.name == document.name:
            return lsp.Location(uri, self.range(span))
        path = document.path_of(span.source)
        return lsp.Location(path.resolve().as_uri(), self.range(span)) if path else None

    def _diagnostic(self, document: Document, note: Note, span: Span) -> lsp.Diagnostic:
        elsewhere = note.span is not None and note.span.source is not document.now.source
        message = f"{note.span}: {note.message}" if elsewhere else note.message
        own = [(place, words) for place, words in note.related if place.source is document.now.source]
        uri = next(uri for uri, known in self.open.items() if known is document)
        related = [lsp.DiagnosticRelatedInformation(lsp.Location(uri, self.range(p)), words) for p, words in own]
        return lsp.Diagnostic(
            self.range(span),
            "\n".join([message, *note.hints]),
            severity=_SEVERITIES[note.severity],
            source="plainseam",
            related_information=related or None,
        )


def make_server() -> PieceServer:
    """A server that knows everything that this room can answer."""
    logging.getLogger("pygls.protocol.json_rpc").addFilter(_is_fault)
    gc.freeze()  # what is loaded by now stays: looking for rubbish among it would hold up a keystroke now and then
    gc.set_threshold(20_000, 50, 100)  # a text of 300 lines makes some ten thousand objects, and drops them at once
    server = PieceServer()
    _follow(server)
    _answer(server)
    _change(server)
    return server


def _is_fault(record: logging.LogRecord) -> bool:
    """A refusal is an answer to the designer, and nothing for a log."""
    reason = record.exc_info[1] if record.exc_info else None
    return not (isinstance(reason, JsonRpcException) and reason.code == REFUSED)


def _follow(server: PieceServer) -> None:
    """Keep up with the files that are open."""

    @server.feature(lsp.TEXT_DOCUMENT_DID_OPEN)
    def opened(ls: PieceServer, params: lsp.DidOpenTextDocumentParams) -> None:
        ls.look_at(params.text_document.uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CHANGE)
    def changed(ls: PieceServer, params: lsp.DidChangeTextDocumentParams) -> None:
        ls.look_at(params.text_document.uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_SAVE)
    def saved(ls: PieceServer, params: lsp.DidSaveTextDocumentParams) -> None:
        for uri in list(ls.open):  # a saved file of templates matters to the patterns that use it
            ls.look_at(uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CLOSE)
    def closed(ls: PieceServer, params: lsp.DidCloseTextDocumentParams) -> None:
        ls.open.pop(params.text_document.uri, None)
        ls.text_document_publish_diagnostics(lsp.PublishDiagnosticsParams(params.text_document.uri, []))


def _answer(server: PieceServer) -> None:
    """What can be asked about a place or a file."""

    @server.feature(lsp.TEXT_DOCUMENT_HOVER)
    def said(ls: PieceServer, params: lsp.HoverParams) -> lsp.Hover | None:
        document = ls.open[params.text_document.uri]
        found = hover.hover(document.now, document.known, document.figures, ls.offset(document, params.position))
        if not found:
            return None
        return lsp.Hover(lsp.MarkupContent(lsp.MarkupKind.Markdown, found[0]), ls.range(found[1]))

    @server.feature(lsp.TEXT_DOCUMENT_COMPLETION, lsp.CompletionOptions(trigger_characters=["."]))
    def choices(ls: PieceServer, params: lsp.CompletionParams) -> list[lsp.CompletionItem]:
        document = ls.open[params.text_document.uri]
        found = complete.complete(document.now, document.known, ls.offset(document, params.position))
        return [_item(number, choice) for number, choice in enumerate(found)]

    @server.feature(lsp.TEXT_DOCUMENT_DEFINITION)
    def definition(ls: PieceServer, params: lsp.DefinitionParams) -> lsp.Location | None:
        uri = params.text_document.uri
        document = ls.open[uri]
        found = symbol_at(document.now, document.known, ls.offset(document, params.position))
        places = [o.span for o in document.known.of(found[0]) if o.declares] if found else []
        return ls.location(uri, document, places[0]) if places else None

    @server.feature(lsp.TEXT_DOCUMENT_REFERENCES)
    def uses(ls: PieceServer, params: lsp.ReferenceParams) -> list[lsp.Location]:
        uri = params.text_document.uri
        document = ls.open[uri]
        found = document.now.symbols.at(document.now.source, ls.offset(document, params.position))
        known = document.now.symbols.of(found.symbol) if found else []
        spans = [o.span for o in known if params.context.include_declaration or not o.declares]
        return [place for span in spans if (place := ls.location(uri, document, span))]

    @server.feature(lsp.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def symbols(ls: PieceServer, params: lsp.DocumentSymbolParams) -> list[lsp.DocumentSymbol]:
        document = ls.open[params.text_document.uri]
        return [_symbol(ls, item) for item in contents.items(document.now.file)] if document.now.file else []


def _change(server: PieceServer) -> None:
    """What changes a file."""

    @server.feature(lsp.TEXT_DOCUMENT_FORMATTING)
    def laid_out(ls: PieceServer, params: lsp.DocumentFormattingParams) -> list[lsp.TextEdit]:
        uri = params.text_document.uri
        document = ls.open[uri]
        try:
            text = tidy(Source(document.name, document.text))
        except Problems:
            return []  # the diagnostics say why
        ends = "\r\n" if "\r\n" in ls.workspace.get_text_document(uri).source else "\n"
        whole = ls.range(Span(document.now.source, 0, len(document.text)))
        return [lsp.TextEdit(whole, text.replace("\n", ends))] if text != document.text else []

    @server.feature(lsp.TEXT_DOCUMENT_PREPARE_RENAME)
    def named(ls: PieceServer, params: lsp.PrepareRenameParams) -> lsp.Range:
        document = ls.open[params.text_document.uri]
        try:
            return ls.range(rename.renamable(document.now, ls.offset(document, params.position)))
        except rename.Refused as reason:
            raise JsonRpcException(str(reason), REFUSED) from None

    @server.feature(lsp.TEXT_DOCUMENT_RENAME, lsp.RenameOptions(prepare_provider=True))
    def renamed(ls: PieceServer, params: lsp.RenameParams) -> lsp.WorkspaceEdit:
        uri = params.text_document.uri
        document = ls.open[uri]
        try:
            offset = ls.offset(document, params.position)
            spans = rename.rename(document.now, offset, params.new_name, document.directory)
        except rename.Refused as reason:
            raise JsonRpcException(str(reason), REFUSED) from None
        return lsp.WorkspaceEdit({uri: [lsp.TextEdit(ls.range(span), params.new_name) for span in spans]})


def _item(number: int, choice: complete.Choice) -> lsp.CompletionItem:
    kind = _CHOICES.get(choice.what, lsp.CompletionItemKind.Variable)
    order = f"{number:04d}"  # nearest names first, words last
    return lsp.CompletionItem(choice.text, kind=kind, detail=choice.what, documentation=choice.words, sort_text=order)


def _symbol(ls: PieceServer, item: contents.Item) -> lsp.DocumentSymbol:
    inside = [_symbol(ls, child) for child in item.inside]
    kind = _SYMBOLS.get(item.sort, lsp.SymbolKind.Variable)
    detail = item.sort.value if item.sort else "pattern"
    return lsp.DocumentSymbol(
        item.name, kind, ls.range(item.span), ls.range(item.name_span), detail=detail, children=inside
    )
