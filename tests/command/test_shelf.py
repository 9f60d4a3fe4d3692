"""The shelf: every bundled pattern, and no file of templates, told of and drawn."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.answers.on_the_shelf import OnShelf, shelf_files, shelf_report
from draft.drafting.planned import texts_for
from draft.plan.library import bundled_files
from tests import asking
from tests.command.run import Runner
from tests.paper.reading import page_count, text_of


@pytest.fixture(scope="module")
def shelf() -> list[OnShelf]:
    return asking.shelf()


def test_every_bundled_pattern_is_on_the_shelf_and_no_file_of_templates(shelf: list[OnShelf]) -> None:
    patterns = [name for name in bundled_files() if texts_for(name).main.patterns]
    assert [one.name for one in shelf] == patterns
    assert {"marlpit", "ropewalk"} <= set(patterns) and "bands" not in patterns


def test_each_says_its_title_sizes_cloth_and_what_it_asks(shelf: list[OnShelf]) -> None:
    by_name = {one.name: one for one in shelf}
    assert by_name["ropewalk"].cloth == "woven"
    assert by_name["marlpit"].cloth == "knit, stretching 40 % across and 20 % down"
    assert by_name["tidemill"].cloth == "knit, stretching 50 % across"
    report = shelf_report(shelf)
    for one in shelf:
        assert one.garment and one.skill
        assert f"{one.title}; sizes {one.sizes}; {one.cloth}" in report
    assert max(map(len, report.splitlines())) <= 100


def test_the_page_holds_every_garment_with_its_words(shelf: list[OnShelf]) -> None:
    files = shelf_files(shelf)
    assert set(files) == {"shelf.svg", "shelf.pdf"}
    assert page_count(files["shelf.pdf"]) == 1
    text = " ".join(text_of(files["shelf.pdf"], 0).split())
    assert all(one.title in text for one in shelf)
    assert text.count("Front") == len(shelf)
    assert text.count("Back") == len(shelf)


def test_the_verb_prints_and_draws(
    run: Runner, shelf: list[OnShelf], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("draft.answers.on_the_shelf.on_the_shelf", lambda: shelf)
    done = run("shelf", "--out", str(tmp_path / "drawn"))
    assert done.code == 0 and "Marlpit top; sizes XS to 3XL" in done.out
    assert sorted(file.name for file in (tmp_path / "drawn").iterdir()) == ["shelf.pdf", "shelf.svg"]
