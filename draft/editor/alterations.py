"""What changes a file for the designer: laying it out, mending a mistake, giving a name another."""

from __future__ import annotations

from lsprotocol import types as lsp
from pygls.exceptions import JsonRpcException

from draft.base.notes import Problems, Span
from draft.editor import rename
from draft.editor.least_edits import least_edits, within
from draft.editor.mending import Mending, mendings
from draft.editor.open_file import OpenFile
from draft.editor.server import REFUSED, PieceServer
from draft.language.tidy import tidy


def make_changes(server: PieceServer) -> None:
    """What changes a file."""

    @server.feature(lsp.TEXT_DOCUMENT_FORMATTING)
    def laid_out(ls: PieceServer, params: lsp.DocumentFormattingParams) -> list[lsp.TextEdit]:
        return _tidied(ls, ls.file(params.text_document.uri))

    @server.feature(lsp.TEXT_DOCUMENT_RANGE_FORMATTING)
    def partly(ls: PieceServer, params: lsp.DocumentRangeFormattingParams) -> list[lsp.TextEdit]:
        file = ls.file(params.text_document.uri)
        start, end = (ls.offset(file, place) for place in (params.range.start, params.range.end))
        first, last = file.text.rfind("\n", 0, start) + 1, file.text.find("\n", end)
        return _tidied(ls, file, first, last if last >= 0 else None)

    @server.feature(lsp.TEXT_DOCUMENT_WILL_SAVE_WAIT_UNTIL)
    def saving(ls: PieceServer, params: lsp.WillSaveTextDocumentParams) -> list[lsp.TextEdit]:
        return _tidied(ls, ls.file(params.text_document.uri)) if ls.tidies else []

    @server.feature(lsp.TEXT_DOCUMENT_CODE_ACTION)
    def mended(ls: PieceServer, params: lsp.CodeActionParams) -> list[lsp.CodeAction]:
        uri = params.text_document.uri
        file = ls.file(uri)
        start, end = (ls.offset(file, place) for place in (params.range.start, params.range.end))
        return [_action(ls, uri, mending) for mending in mendings(file, start, end)]

    @server.feature(lsp.TEXT_DOCUMENT_PREPARE_RENAME)
    def named(ls: PieceServer, params: lsp.PrepareRenameParams) -> lsp.Range:
        file = ls.file(params.text_document.uri)
        try:
            return ls.range(rename.renamable(file.now, ls.offset(file, params.position)))
        except rename.Refused as reason:
            raise JsonRpcException(str(reason), REFUSED) from None

    @server.feature(lsp.TEXT_DOCUMENT_RENAME, lsp.RenameOptions(prepare_provider=True))
    def renamed(ls: PieceServer, params: lsp.RenameParams) -> lsp.WorkspaceEdit:
        uri = params.text_document.uri
        file = ls.file(uri)
        try:
            offset = ls.offset(file, params.position)
            spans = rename.rename(file.now, offset, params.new_name, file.directory)
        except rename.Refused as reason:
            raise JsonRpcException(str(reason), REFUSED) from None
        return lsp.WorkspaceEdit({uri: [lsp.TextEdit(ls.range(span), params.new_name) for span in spans]})


def _tidied(ls: PieceServer, file: OpenFile, start: int = 0, end: int | None = None) -> list[lsp.TextEdit]:
    """The edits that lay a file out, or the part of it between two places; none where it cannot be read."""
    try:
        text = tidy(file.now.source)
    except Problems:
        return []  # the diagnostics say why
    edits = within(least_edits(file.text, text), start, len(file.text) if end is None else end)
    return [
        lsp.TextEdit(ls.range(Span(file.now.source, e.start, e.end)), e.text.replace("\n", file.ends)) for e in edits
    ]


def _action(ls: PieceServer, uri: str, mending: Mending) -> lsp.CodeAction:
    """A mistake mended as its note proposes."""
    edit = lsp.WorkspaceEdit({uri: [lsp.TextEdit(ls.range(mending.span), mending.text)]})
    return lsp.CodeAction(f"write `{mending.text}`", kind=lsp.CodeActionKind.QuickFix, edit=edit)
