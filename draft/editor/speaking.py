"""The server with all that it can be asked."""

from __future__ import annotations

from draft.editor.alterations import make_changes
from draft.editor.keeping_up import keep_up
from draft.editor.questions import answer_questions
from draft.editor.server import PieceServer, make_bare_server


def make_server() -> PieceServer:
    """A server that knows everything that this room can answer."""
    server = make_bare_server()
    for teach in (keep_up, answer_questions, make_changes):
        teach(server)
    return server
