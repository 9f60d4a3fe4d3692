"""A pattern in an envelope opens on the designer's page as its file does: drawn, and never saved to."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.page.bench import Bench
from draft.page.page_verbs import VERBS
from draft.plan.library import find
from draft.sharing.enclosed import enclosed, sealed


def test_it_is_drawn_and_not_saved_to(tmp_path: Path) -> None:
    (tmp_path / "ropewalk.envelope").write_bytes(sealed(enclosed("ropewalk")))
    file = find(str(tmp_path / "ropewalk.envelope")).resolve()
    bench = Bench(file=file)
    opened = VERBS["open"]({"garment": "file"}, bench)
    assert opened["text"].startswith("# Ropewalk") and opened["name"] == "ropewalk.piece" and not opened["saves"]
    assert VERBS["nest"]({"garment": "file", "text": opened["text"]}, bench)["pieces"]
    with pytest.raises(Problems, match="read and never changed"):
        VERBS["save"]({"text": "pattern other\n", "over": True}, bench)
