"""Keeping up with the files that an editor has open, and with what changes on disk beside them."""

from __future__ import annotations

from typing import Any

from lsprotocol import types as lsp

from draft.editor.server import PieceServer

_WATCHED = ("**/*.piece", "**/*.csv")


def keep_up(server: PieceServer) -> None:
    """Follow what is typed, saved and closed."""

    @server.feature(lsp.TEXT_DOCUMENT_DID_OPEN)
    def opened(ls: PieceServer, params: lsp.DidOpenTextDocumentParams) -> None:
        document = params.text_document
        ls.take_in(document.uri, document.text, document.version)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CHANGE)
    def changed(ls: PieceServer, params: lsp.DidChangeTextDocumentParams) -> None:
        uri = params.text_document.uri
        file = ls.file(uri)
        file.version = params.text_document.version
        for change in params.content_changes:
            if isinstance(change, lsp.TextDocumentContentChangePartial):
                start, end = ((place.line, place.character) for place in (change.range.start, change.range.end))
                file.replace(start, end, change.text, ls.encoding)
            else:
                file.change(change.text)
        ls.look_soon(uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_SAVE)
    def saved(ls: PieceServer, params: lsp.DidSaveTextDocumentParams) -> None:
        ls.look_at_all()  # a new file may be what others lacked

    @server.feature(lsp.TEXT_DOCUMENT_DID_CLOSE)
    def closed(ls: PieceServer, params: lsp.DidCloseTextDocumentParams) -> None:
        ls.let_go(params.text_document.uri)

    _follow_the_disk(server)
    _follow_the_settings(server)


def _follow_the_disk(server: PieceServer) -> None:
    @server.feature(lsp.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    def on_disk(ls: PieceServer, params: lsp.DidChangeWatchedFilesParams) -> None:
        ls.look_at_all()

    @server.feature(lsp.WORKSPACE_DID_CHANGE_WORKSPACE_FOLDERS)
    def folders(ls: PieceServer, params: lsp.DidChangeWorkspaceFoldersParams) -> None:
        ls.look_at_all()

    @server.feature(lsp.INITIALIZED)
    def begun(ls: PieceServer, params: lsp.InitializedParams) -> None:
        workspace = ls.client_capabilities.workspace
        watching = workspace.did_change_watched_files if workspace else None
        if watching and watching.dynamic_registration:
            watched = lsp.DidChangeWatchedFilesRegistrationOptions([lsp.FileSystemWatcher(each) for each in _WATCHED])
            asked = lsp.Registration("watched", lsp.WORKSPACE_DID_CHANGE_WATCHED_FILES, watched)
            ls.client_register_capability(lsp.RegistrationParams([asked]))


def _follow_the_settings(server: PieceServer) -> None:
    @server.feature(lsp.INITIALIZE)
    def beginning(ls: PieceServer, params: lsp.InitializeParams) -> None:
        _set(ls, params.initialization_options)

    @server.feature(lsp.WORKSPACE_DID_CHANGE_CONFIGURATION)
    def set_anew(ls: PieceServer, params: lsp.DidChangeConfigurationParams) -> None:
        _set(ls, params.settings)


def _set(ls: PieceServer, settings: Any) -> None:
    """Settings as an editor sends them: `{"size": "M", "tidy": true}`, or that under the name of the program."""
    own = _part(settings, "plainseam") or settings
    size = _part(own, "size")
    ls.tidies = _part(own, "tidy") is True
    ls.show_size(size if isinstance(size, str) else "")


def _part(settings: Any, name: str) -> Any:
    return settings.get(name) if isinstance(settings, dict) else getattr(settings, name, None)
