"""Trees of texts that were read before: the same tree, made of nothing but a tree's records, of the same text only."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

from draft.base.kept import keep, recalled
from draft.base.notes import Problems, Source
from draft.base.resources import folder
from draft.language import kept_trees
from draft.language.kept_trees import FILE, key_of, opened, read_again
from draft.language.reader import read
from draft.language.walking import nodes

TRIED = 'pattern tried\n    title "Tried"\n'
BUNDLED = sorted(folder("pieces").glob("*.piece"))


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))


def _source(text: str = TRIED, name: str = "tried.piece") -> Source:
    return Source(name, text)


@pytest.mark.parametrize("file", BUNDLED, ids=lambda file: file.stem)
def test_a_kept_tree_equals_the_one_that_was_read_with_its_places(file: Path) -> None:
    source = Source(file.name, file.read_text(encoding="utf-8"))
    fresh = read(source)
    assert read_again(source) == fresh
    again = opened(recalled(FILE, key_of(source)))
    assert again == fresh
    assert again is not None
    assert [node.span for node in nodes(again)] == [node.span for node in nodes(fresh)]


def test_a_text_is_read_only_once(monkeypatch: pytest.MonkeyPatch) -> None:
    first = read_again(_source())
    monkeypatch.setattr(kept_trees, "_read", lambda source: pytest.fail("read again"))
    assert read_again(_source()) == first


@pytest.mark.parametrize("other", [_source(TRIED.replace("tried", "other")), _source(name="other.piece")])
def test_another_text_or_name_has_another_key(other: Source) -> None:
    assert key_of(other) != key_of(_source())


def test_mistakes_are_told_each_time_and_nothing_is_kept_of_them(tmp_path: Path) -> None:
    for _ in range(2):
        with pytest.raises(Problems):
            read_again(_source("patern tried\n"))
    assert not list(tmp_path.rglob(f"{FILE}-*"))


def test_kept_bytes_that_would_run_something_are_read_anew() -> None:
    class Hostile:
        def __reduce__(self) -> tuple[object, tuple[str]]:
            return print, ("ran",)

    keep(FILE, key_of(_source()), pickle.dumps(Hostile()))
    assert opened(pickle.dumps(Hostile())) is None
    assert read_again(_source()) == read(_source())


@pytest.mark.parametrize("kept", [b"", b"no tree", pickle.dumps([1, 2]), pickle.dumps(Path), None])
def test_what_is_no_tree_is_as_if_it_were_not_there(kept: bytes | None) -> None:
    assert opened(kept) is None
