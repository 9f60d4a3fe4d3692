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
from draft.editor.mending import Mending, mendings
from draft.editor.open_file import OpenFile
from draft.editor.positions import UTF_16, offset_of, place_of
from draft.editor.symbols import NameSort
from draft.language.tidy import tidy

REFUSED = -32803  # the protocol's code for a request that is understood and cannot be met

_SEVERITIES = {
    Severity.ERROR: lsp.DiagnosticSeverity.Error,
    Severity.CAUTION: lsp.DiagnosticSeverity.Warning,
    Severity.REMARK: lsp.DiagnosticSeverity.Information,
}
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


class PieceServer(LanguageServer):
    """The server with the files that are open."""

    def __init__(self) -> None:
        super().__init__("plainseam", __version__)
        self.open: dict[str, OpenFile] = {}

    def look_at(self, uri: str) -> None:
        """Look at the text of a file anew and tell the editor what there is to say."""
        file = self.open.get(uri) or self._opened(uri)
        file.change(self.workspace.get_text_document(uri).source)
        found = [self._diagnostic(file, note, span) for note, span in file.notes()]
        self.text_document_publish_diagnostics(lsp.PublishDiagnosticsParams(uri, found))

    def _opened(self, uri: str) -> OpenFile:
        path = Path(uris.to_fs_path(uri) or folder("pieces") / "untitled.piece")
        return self.open.setdefault(uri, OpenFile(path.name, path.parent))

    # ---- places

    @property
    def encoding(self) -> str:
        """The units in which the editor counts letters."""
        return str(getattr(self.workspace.position_encoding, "value", self.workspace.position_encoding) or UTF_16)

    def offset(self, file: OpenFile, position: lsp.Position) -> int:
        """The offset of a place in a file's text."""
        return offset_of(file.text, position.line, position.character, self.encoding)

    def range(self, span: Span) -> lsp.Range:
        """A stretch of a text."""
        text = span.source.text
        ends = (place_of(text, place, self.encoding) for place in (span.start, span.end))
        return lsp.Range(*(lsp.Position(*end) for end in ends))

    def location(self, uri: str, file: OpenFile, span: Span) -> lsp.Location | None:
        """A stretch of this file or of one that it uses."""
        if span.source.name == file.name:
            return lsp.Location(uri, self.range(span))
        path = file.path_of(span.source)
        return lsp.Location(path.resolve().as_uri(), self.range(span)) if path else None

    def _diagnostic(self, file: OpenFile, note: Note, span: Span) -> lsp.Diagnostic:
        elsewhere = note.span is not None and note.span.source is not file.now.source
        message = f"{note.span}: {note.message}" if elsewhere else note.message
        own = [(place, words) for place, words in note.related if place.source is file.now.source]
        uri = next(uri for uri, known in self.open.items() if known is file)
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
        file = ls.open[params.text_document.uri]
        found = hover.hover(file.now, file.known, file.figures, ls.offset(file, params.position))
        if not found:
            return None
        return lsp.Hover(lsp.MarkupContent(lsp.MarkupKind.Markdown, found[0]), ls.range(found[1]))

    @server.feature(lsp.TEXT_DOCUMENT_COMPLETION, lsp.CompletionOptions(trigger_characters=["."]))
    def completions(ls: PieceServer, params: lsp.CompletionParams) -> list[lsp.CompletionItem]:
        file = ls.open[params.text_document.uri]
        found = complete.complete(file.now, file.known, ls.offset(file, params.position))
        return [_completion_item(number, completion) for number, completion in enumerate(found)]

    @server.feature(lsp.TEXT_DOCUMENT_DEFINITION)
    def definition(ls: PieceServer, params: lsp.DefinitionParams) -> lsp.Location | None:
        uri = params.text_document.uri
        file = ls.open[uri]
        found = symbol_at(file.now, file.known, ls.offset(file, params.position))
        places = [o.span for o in file.known.of(found[0]) if o.declares] if found else []
        return ls.location(uri, file, places[0]) if places else None

    @server.feature(lsp.TEXT_DOCUMENT_REFERENCES)
    def uses(ls: PieceServer, params: lsp.ReferenceParams) -> list[lsp.Location]:
        uri = params.text_document.uri
        file = ls.open[uri]
        found = file.now.symbols.at(file.now.source, ls.offset(file, params.position))
        known = file.now.symbols.of(found.symbol) if found else []
        spans = [o.span for o in known if params.context.include_declaration or not o.declares]
        return [place for span in spans if (place := ls.location(uri, file, span))]

    @server.feature(lsp.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def symbols(ls: PieceServer, params: lsp.DocumentSymbolParams) -> list[lsp.DocumentSymbol]:
        file = ls.open[params.text_document.uri]
        return (
            [_symbol(ls, declaration) for declaration in contents.declarations(file.now.file)] if file.now.file else []
        )


def _change(server: PieceServer) -> None:
    """What changes a file."""

    @server.feature(lsp.TEXT_DOCUMENT_FORMATTING)
    def laid_out(ls: PieceServer, params: lsp.DocumentFormattingParams) -> list[lsp.TextEdit]:
        uri = params.text_document.uri
        file = ls.open[uri]
        try:
            text = tidy(Source(file.name, file.text))
        except Problems:
            return []  # the diagnostics say why
        ends = "\r\n" if "\r\n" in ls.workspace.get_text_document(uri).source else "\n"
        whole = ls.range(Span(file.now.source, 0, len(file.text)))
        return [lsp.TextEdit(whole, text.replace("\n", ends))] if text != file.text else []

    @server.feature(lsp.TEXT_DOCUMENT_CODE_ACTION)
    def mended(ls: PieceServer, params: lsp.CodeActionParams) -> list[lsp.CodeAction]:
        uri = params.text_document.uri
        file = ls.open[uri]
        start, end = (ls.offset(file, place) for place in (params.range.start, params.range.end))
        return [_action(ls, uri, mending) for mending in mendings(file.now, file.directory, start, end)]

    @server.feature(lsp.TEXT_DOCUMENT_PREPARE_RENAME)
    def named(ls: PieceServer, params: lsp.PrepareRenameParams) -> lsp.Range:
        file = ls.open[params.text_document.uri]
        try:
            return ls.range(rename.renamable(file.now, ls.offset(file, params.position)))
        except rename.Refused as reason:
            raise JsonRpcException(str(reason), REFUSED) from None

    @server.feature(lsp.TEXT_DOCUMENT_RENAME, lsp.RenameOptions(prepare_provider=True))
    def renamed(ls: PieceServer, params: lsp.RenameParams) -> lsp.WorkspaceEdit:
        uri = params.text_document.uri
        file = ls.open[uri]
        try:
            offset = ls.offset(file, params.position)
            spans = rename.rename(file.now, offset, params.new_name, file.directory)
        except rename.Refused as reason:
            raise JsonRpcException(str(reason), REFUSED) from None
        return lsp.WorkspaceEdit({uri: [lsp.TextEdit(ls.range(span), params.new_name) for span in spans]})


def _action(ls: PieceServer, uri: str, mending: Mending) -> lsp.CodeAction:
    """A mistake mended as its note proposes."""
    edit = lsp.WorkspaceEdit({uri: [lsp.TextEdit(ls.range(mending.span), mending.text)]})
    return lsp.CodeAction(f"write `{mending.text}`", kind=lsp.CodeActionKind.QuickFix, edit=edit)


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
