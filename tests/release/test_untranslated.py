"""Texts without a translation are told of where others have one, and nowhere else."""

from __future__ import annotations

from pathlib import Path

from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.release.untranslated import untranslated

HEAD = 'pattern gorse from "marlpit.piece"\n    title "Gorse top"\n    version "1.1"\n'
CHANGED = '    changed "1.1" on "2026-05-04" "The neck is wider."\n'


def _told(folder: Path, language: str, **files: str) -> str:
    (folder / "gorse.piece").write_text(HEAD + CHANGED, encoding="utf-8")
    for name, text in files.items():
        (folder / f"{name}.{language}.toml").write_text(text, encoding="utf-8")
    drafted = draft_and_check(Request(str(folder / "gorse.piece"), Whom(sizes=("M",))))
    return "; ".join(note.message for note in untranslated(drafted, language))


def test_what_lacks_is_told_with_its_words(tmp_path: Path) -> None:
    said = _told(tmp_path, "de", gorse='"Gorse top" = "Shirt Gorse"\n')
    assert said == "a text has no translation into `de`: “The neck is wider.”"  # Marlpit's own are all there
    said = _told(tmp_path, "de", gorse='"The neck is wider." = "Der Hals ist weiter."\n')
    assert said == "a text has no translation into `de`: “Gorse top”"


def test_the_studios_terms_are_among_them(tmp_path: Path) -> None:
    (tmp_path / "studio.toml").write_text('name = "Withy Bank"\nterms = "For one maker."\n', encoding="utf-8")
    both = '"Gorse top" = "Shirt Gorse"\n"The neck is wider." = "Der Hals ist weiter."\n'
    assert "“For one maker.”" in _told(tmp_path, "de", gorse=both)
    assert _told(tmp_path, "de", gorse=both, studio='"For one maker." = "Für eine Person."\n') == ""


def test_the_language_that_she_writes_in_lacks_nothing(tmp_path: Path) -> None:
    assert _told(tmp_path, "en") == ""
