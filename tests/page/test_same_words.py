"""Texts that say the same are read as the same tree, so that nothing needs to be read while a remark is written."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Source, Span
from draft.language.by_blocks import Blocks
from draft.page.bench import Bench
from draft.page.designing import VERBS
from draft.page.designing.same_words import same_words
from draft.plan.library import bundled_files

GOOD = Path(__file__).parents[1] / "good"
MARLPIT = bundled_files()["marlpit"].read_text("utf-8")
SMALL = {name: (GOOD / f"{name}.piece").read_text("utf-8") for name in ("apron", "several_cloths")}
BLOCKS = Blocks()


def said(part: Any) -> Any:
    """What a tree says, without its places."""
    if isinstance(part, Span):
        return None
    if isinstance(part, (tuple, list)):
        return [said(one) for one in part]
    if is_dataclass(part):
        return type(part).__name__, [said(getattr(part, one.name)) for one in fields(part)]
    return part


def read(text: str) -> tuple[Any, list[str]]:
    tree, notes = BLOCKS.read(Source("own.piece", text))
    return said(tree), [note.message for note in notes]


PUT_IN = st.sampled_from(
    ["#", "# wide", " # 3 cm", "\n", "\n# more\n", '"', " ", "    ", "\t", "x", "\r\n", "#\n#", ""]
)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(SMALL)), st.data(), PUT_IN, st.integers(0, 3))
def test_what_is_taken_for_the_same_is_read_as_the_same(name: str, data: Any, put_in: str, taken: int) -> None:
    text = SMALL[name]
    at = data.draw(st.integers(0, len(text)))
    row_ends = data.draw(st.booleans())
    at = text.find("\n", at) if row_ends and "\n" in text[at:] else at
    after = text[:at] + put_in + text[at + taken * (not row_ends) :]
    if same_words(text, after):
        assert read(after) == read(text)


def test_remarks_and_empty_rows_are_of_no_matter() -> None:
    text = MARLPIT
    row = text.index("\n", text.index("bust_ease"))
    for put_in in (" # mine", "\n\n", "\n# a remark of its own", "   ", '\n    # "quoted'):
        assert same_words(text, text[:row] + put_in + text[row:]), put_in
    assert same_words(text, text.replace("# Widths of half", "# Wide"))
    for put_in in (" mine", "\n    mine = 3 cm", '" #'):
        assert not same_words(text, text[:row] + put_in + text[row:]), put_in
    assert not same_words('a "x # y"', 'a "x # z"')
    assert not same_words("    a = 3 cm", "        a = 3 cm")


def test_a_remark_is_drawn_as_the_text_before_and_its_places_come_once_it_rests() -> None:
    bench, asked = Bench(), {"garment": "marlpit", "text": MARLPIT, "moving": True}
    before = VERBS["nest"](asked, bench)
    text = MARLPIT.replace("# Widths of half", "# Widths, all of them, of half")
    quick = VERBS["nest"]({**asked, "text": text}, bench)
    whole = VERBS["nest"]({**asked, "text": text, "moving": False}, bench)
    assert "moving" not in before and quick["moving"] is True and "moving" not in whole
    assert quick["pieces"] == before["pieces"] != whole["pieces"]
    for piece, other in zip(quick["pieces"], whole["pieces"], strict=True):
        assert [edge["d"] for edge in piece["edges"]] == [edge["d"] for edge in other["edges"]]
    moved = VERBS["nest"]({**asked, "text": text.replace("bust_ease        6 cm", "bust_ease        7 cm")}, bench)
    assert moved["moving"] is True and moved["pieces"] != whole["pieces"]
