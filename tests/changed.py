"""A good file with some of its words changed, as a designer would change them."""

from __future__ import annotations

from pathlib import Path

from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from tests.asking import asked


def drafted_with(path: Path, folder: Path, *pairs: tuple[str, str]) -> Garment:
    """The garment of a file in which each first text is the second; the file lies in `folder`, beside its chart."""
    text = path.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    (folder / "changed.piece").write_text(text, encoding="utf-8")
    (folder / "sizes.csv").write_bytes((path.parent / "sizes.csv").read_bytes())
    return draft_and_check(asked(folder / "changed.piece")).garment
