"""The language server: this room's answers in the Language Server Protocol (version 3.17), over standard streams."""

from __future__ import annotations

import asyncio
import gc
import logging
from pathlib import Path

from lsprotocol import types as lsp
from pygls import uris
from pygls.exceptions import JsonRpcException
from pygls.lsp.server import LanguageServer

from draft import __version__
from draft.base.notes import Note, Severity, Source, Span
from draft.base.resources import folder
from draft.editor.complete import complete
from draft.editor.drafted_notes import Asked, at_home, can_be_drafted
from draft.editor.drafter import Drafter
from draft.editor.open_file import OpenFile
from draft.editor.pause import Pause
from draft.editor.positions import UTF_16, offset_of, place_of
from draft.editor.shelf import Shelf

REFUSED = -32803  # the protocol's code for a request that is understood and cannot be met
PAUSE = 0.015
"""Seconds after a letter until the text is looked at: letters that wait already come in one go."""
LONGEST_PAUSE = 0.25
"""Seconds: letters without a pause come from no hand, and what they say is told now and then."""
BREATH = 0.002
"""Seconds between reading a text and planning it: an answer that is waited for comes in between."""
DRAFTING_PAUSE = 0.4
"""Seconds without a letter until all sizes are drafted."""

_SEVERITIES = {
    Severity.ERROR: lsp.DiagnosticSeverity.Error,
    Severity.CAUTION: lsp.DiagnosticSeverity.Warning,
    Severity.REMARK: lsp.DiagnosticSeverity.Information,
}


class PieceServer(LanguageServer):
    """The server with the files that are open."""

    def __init__(self) -> None:
        super().__init__("plainseam", __version__)
        self.open: dict[str, OpenFile] = {}
        self.shelf = Shelf()
        self.size = ""
        """The size whose figures are shown; the middle one where it is empty."""
        self.tidies = False
        """Whether a file is laid out when it is saved."""
        self._looks: dict[str, Pause] = {}
        self._plans: dict[str, Pause] = {}
        self._rests: dict[str, Pause] = {}
        self._drafts: dict[str, Pause] = {}
        self._drafting: set[str] = set()
        self._drafter = Drafter()

    # ---- the files that are open

    def file(self, uri: str) -> OpenFile:
        """An open file. A question about any other is refused."""
        if uri not in self.open:
            raise JsonRpcException("this file is not open", REFUSED)
        return self.open[uri]

    def take_in(self, uri: str, text: str, version: int | None) -> None:
        """A file is opened."""
        named = uris.to_fs_path(uri) if uri.startswith("file:") else None
        path = Path(named) if named else None
        beside = path.parent if path else folder("pieces")
        name = path.name if path else "untitled.piece"
        file = self.open[uri] = OpenFile(name, beside, self.shelf, path, version, size=self.size)
        self._looks[uri] = Pause(lambda: self._read(uri), PAUSE, LONGEST_PAUSE)
        self._plans[uri] = Pause(lambda: self.look_at(uri), BREATH)
        self._rests[uri] = Pause(lambda: self._rest(uri), BREATH)
        self._drafts[uri] = Pause(lambda: self.draft(uri), DRAFTING_PAUSE)
        file.change(text)
        self.look_at(uri)
        complete(file.text, file.known_while_typing, len(file.text))  # the first one makes what all others find made

    def let_go(self, uri: str) -> None:
        """A file is closed: what is on disk counts again."""
        file = self.open.pop(uri, None)
        for pauses in (self._looks, self._plans, self._rests, self._drafts):
            if uri in pauses:
                pauses.pop(uri).cancel()
        self.text_document_publish_diagnostics(lsp.PublishDiagnosticsParams(uri, []))
        if file and file.path:
            self.shelf.take(file.path)
            self._follow(file)

    def look_soon(self, uri: str) -> None:
        """Look at a file once the typing pauses."""
        self._drafts[uri].cancel()
        self._plans[uri].cancel()
        self._rests[uri].cancel()
        self._looks[uri].ask()

    def _read(self, uri: str) -> None:
        """Read the text of a file anew, and plan it a breath later, if no letter has come by then."""
        if self.open[uri].now:
            self._plans[uri].ask()

    def look_at_all(self) -> None:
        """Something on disk has changed."""
        for uri, file in self.open.items():
            file.anew()
            self._looks[uri].ask()

    def look_at(self, uri: str) -> None:
        """Look at the text of a file anew and tell the editor what there is to say."""
        file = self.open[uri]
        self._looks[uri].cancel()
        self._plans[uri].cancel()
        self._tell(uri, file)
        self._follow(file)
        self._drafts[uri].ask()
        self._rests[uri].ask()

    def _rest(self, uri: str) -> None:
        """Find the names of a text before the next letter asks for them, and drop what the last ones left.

        A plan's steps lead to one another in circles: left for later, those of fifty letters hold one up for 0.4 s.
        """
        if not self.open[uri].is_new:
            _ = self.open[uri].known
            gc.collect(1)

    def _follow(self, changed: OpenFile) -> None:
        """Look at the files that lead to one that has changed."""
        for uri, file in self.open.items():
            if file is not changed and changed.path and file.leads_to(changed.path):
                file.anew()
                self._looks[uri].ask()

    def _tell(self, uri: str, file: OpenFile) -> None:
        found = [self._diagnostic(uri, file, note, span) for note, span in file.notes()]
        self.text_document_publish_diagnostics(lsp.PublishDiagnosticsParams(uri, found, file.version))

    async def settled(self, uri: str) -> OpenFile:
        """An open file once the last letter typed has been looked at."""
        while self._is_behind(uri):
            await asyncio.sleep(PAUSE / 3)
        return self.file(uri)

    def _is_behind(self, uri: str) -> bool:
        """Whether a text is still to be looked at."""
        return any(uri in pauses and pauses[uri].is_waiting for pauses in (self._looks, self._plans))

    def show_size(self, size: str) -> None:
        """Figures are to be those of this size; of the middle one where it is empty."""
        self.size = size
        for file in self.open.values():
            file.size = size
        workspace = self.client_capabilities.workspace if self.open else None
        if workspace and workspace.inlay_hint and workspace.inlay_hint.refresh_support:
            self.workspace_inlay_hint_refresh(None)

    # ---- drafting, once the typing pauses

    def draft(self, uri: str) -> None:
        """Draft all sizes, and tell what only the drawing shows."""
        if uri in self._drafting:
            self._drafts[uri].ask()
            return
        file = self.open[uri]
        if not can_be_drafted(file.now):
            return
        self._drafting.add(uri)
        asked = Asked(file.now.source, file.directory, self.shelf.open)
        begun = asyncio.get_running_loop().run_in_executor(None, self._drafter.notes, asked)
        begun.add_done_callback(lambda done: self._end_drafting(uri, done, asked.source))

    def _end_drafting(self, uri: str, done: asyncio.Future[tuple[Note, ...]], source: Source) -> None:
        self._drafting.discard(uri)
        file = self.open.get(uri)
        if done.cancelled() or done.exception() or file is None or self._is_behind(uri):
            return
        if file.now.source is source:
            before = file.drafted
            file.drafted = tuple((note, file.place_of(note)) for note in at_home(done.result(), source))
            if file.drafted != before:
                self._tell(uri, file)

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
        if span.source is file.now.source:
            return lsp.Location(uri, self.range(span))
        path = file.path_of(span.source)
        return lsp.Location(path.resolve().as_uri(), self.range(span)) if path else None

    def _diagnostic(self, uri: str, file: OpenFile, note: Note, span: Span) -> lsp.Diagnostic:
        elsewhere = note.span is not None and note.span.source.name != file.name
        message = f"{note.span}: {note.message}" if elsewhere else note.message
        places = [(self.location(uri, file, place), words) for place, words in note.related]
        related = [lsp.DiagnosticRelatedInformation(place, words) for place, words in places if place]
        return lsp.Diagnostic(
            self.range(span),
            "\n".join([message, *note.hints]),
            severity=_SEVERITIES[note.severity],
            source="plainseam",
            related_information=related or None,
        )


def is_fault(record: logging.LogRecord) -> bool:
    """A refusal is an answer to the designer, and nothing for a log."""
    reason = record.exc_info[1] if record.exc_info else None
    return not (isinstance(reason, JsonRpcException) and reason.code == REFUSED)


def make_bare_server() -> PieceServer:
    """A server that knows no question yet."""
    logging.getLogger("pygls.protocol.json_rpc").addFilter(is_fault)
    gc.freeze()  # what is loaded by now stays: looking for rubbish among it would hold up a keystroke now and then
    gc.set_threshold(50_000, 50, 100)  # a text of 300 lines makes some ten thousand objects, and drops them at once
    return PieceServer()
