"""The parser of kept tables, with scanners that its states share, reads as Lark's own does, and is made if need be."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import lark
import platformdirs
import pytest
from lark import Lark, Token, UnexpectedInput
from lark.indenter import DedentError

from draft.language import parse_tables
from draft.language.by_place import ByPlace
from draft.language.scanning import Lexer
from tests.project.checkout import ROOT

GRAMMAR = (ROOT / "grammar" / "piece.lark").read_text(encoding="utf-8")
TEXTS = sorted([*ROOT.glob("pieces/*.piece"), *ROOT.glob("tests/good/*.piece"), *ROOT.glob("tests/bad/*.piece")])


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "cache"
    monkeypatch.setattr(platformdirs, "user_cache_path", lambda *_, **__: folder)
    return folder


@pytest.fixture(scope="module")
def made() -> Lark:
    return parse_tables.made(GRAMMAR)


@pytest.fixture(scope="module")
def plain() -> Lark:
    """Lark's own parser of the same grammar, with a regular expression for each state."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            parse_tables,
            "_code",
            lambda: {"postlex": parse_tables.TokenLines(), "_plugins": {"ContextualLexer": ByPlace}},
        )
        return parse_tables.made(GRAMMAR)


@pytest.fixture(scope="module")
def again(made: Lark) -> Lark:
    """The parser as it is kept and comes back."""
    return parse_tables.unpacked(parse_tables.packed(made))


def told(parser: Lark, text: str) -> Any:
    """All that is read of a text, or of the first place that cannot be read."""
    try:
        tree = parser.parse(text + "\n")
    except DedentError as mistake:
        return str(mistake)
    except UnexpectedInput as mistake:
        expected = getattr(mistake, "accepts", None) or getattr(mistake, "allowed", None)
        found = getattr(mistake, "token", None) or getattr(mistake, "char", None)
        return type(mistake), mistake.pos_in_stream, mistake.line, mistake.column, found, sorted(expected or ())
    found = []
    for node in tree.iter_subtrees_topdown():
        place = (node.meta.start_pos, node.meta.end_pos) if node.children else None
        found.append((node.data, place, [_leaf(child) for child in node.children]))
    return found


def _leaf(child: Any) -> Any:
    if isinstance(child, Token):
        return child.type, str(child), child.start_pos, child.end_pos, child.line, child.end_column
    return child is None


def test_the_plain_parser_is_lark_s_own(plain: Lark, made: Lark) -> None:
    lexers = [parser.parser.lexer.lexer for parser in (plain, made)]
    assert [isinstance(lexer, Lexer) for lexer in lexers] == [False, True]
    assert lexers[0].root_lexer.scanner and lexers[0].root_lexer.callback == {}  # no token becomes another afterwards


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.stem)
def test_texts_are_read_alike(path: Path, plain: Lark, made: Lark, again: Lark) -> None:
    text = path.read_text(encoding="utf-8")
    lines = text.split("\n")
    for part in (text, "\n".join(lines[: len(lines) // 2]), text[: len(text) * 2 // 3], text.replace(":", "")):
        wanted = told(plain, part)
        assert told(made, part) == wanted
        assert told(again, part) == wanted


def test_tables_come_out_alike(made: Lark) -> None:
    assert parse_tables.packed(made) == parse_tables.packed(parse_tables.made(GRAMMAR))


def test_tables_are_made_once(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    parse_tables.ready_parser()
    assert [path.name.split("-")[0] for path in cache.iterdir()] == [parse_tables.FILE]
    monkeypatch.setattr(parse_tables, "made", None)
    assert parse_tables.ready_parser().parse("let\n    a = 2 cm\n")


def test_another_lark_or_grammar_or_recipe_has_another_key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    keys = {parse_tables.key_of(GRAMMAR), parse_tables.key_of(GRAMMAR + "\n")}
    recipe = tmp_path / "tables.py"
    recipe.write_text("other")
    with monkeypatch.context() as patch:
        patch.setattr(parse_tables, "__file__", str(recipe))
        keys.add(parse_tables.key_of(GRAMMAR))
    monkeypatch.setattr(lark, "__version__", "1.99.0")
    assert len(keys | {parse_tables.key_of(GRAMMAR)}) == 4


@pytest.mark.parametrize("kept", [b"", b"no data", b"[]", b"[{}, {}]", b'[{"parser": {"parser": {"states": 3}}}, {}]'])
def test_what_is_no_tables_is_made_anew(kept: bytes, made: Lark, monkeypatch: pytest.MonkeyPatch) -> None:
    grammars: list[str] = []
    monkeypatch.setattr(parse_tables, "recalled", lambda *_: kept)
    monkeypatch.setattr(parse_tables, "made", lambda grammar: grammars.append(grammar) or made)
    assert parse_tables.ready_parser().parse("let\n    a = 2 cm\n")
    assert grammars == [GRAMMAR]


def test_tables_beside_the_grammar_go_before_the_user_s(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "piece.lark").write_text(GRAMMAR, encoding="utf-8")
    monkeypatch.setattr(parse_tables, "folder", lambda _: tmp_path)
    (tmp_path / parse_tables.FILE).write_bytes(parse_tables.sealed_tables())
    monkeypatch.setattr(parse_tables, "made", None)
    monkeypatch.setattr(parse_tables, "recalled", None)
    assert parse_tables.ready_parser().parse("let\n    a = 2 cm\n")
