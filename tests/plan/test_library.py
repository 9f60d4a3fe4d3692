"""Where the texts of a pattern are looked for, and where they are not."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.base.resources import folder
from draft.plan.library import chart_of, find, read_texts

HEAD = 'pattern tunic\n    title "Tunic"\n'


def messages(path: Path) -> list[str]:
    with pytest.raises(Problems) as caught:
        texts = read_texts(path)
        chart_of(texts)
    return [note.message for note in caught.value.notes]


def test_a_bundled_pattern_is_found_by_its_name_and_any_other_by_its_path(tmp_path: Path) -> None:
    assert find("marlpit") == folder("pieces") / "marlpit.piece"
    own = tmp_path / "tunic.piece"
    assert find(str(own)) == own
    with pytest.raises(Problems, match="there is no pattern called `marlpitt`"):
        find("marlpitt")


def test_a_file_of_ones_own_comes_before_a_bundled_one_of_the_same_name(tmp_path: Path) -> None:
    (tmp_path / "bands.piece").write_text('template strip "Mine."\n    points\n        a at 0, 0\n')
    (tmp_path / "women.csv").write_text("measure,unit,M\nbust_girth,cm,94\n")
    (tmp_path / "tunic.piece").write_text(HEAD + '    uses  "bands.piece"\n    chart "women.csv"\n')
    texts = read_texts(tmp_path / "tunic.piece")
    assert [template.name for file in texts.used for template in file.templates] == ["strip"]
    assert chart_of(texts) == tmp_path / "women.csv"


def test_what_is_not_beside_a_pattern_is_taken_from_the_bundle(tmp_path: Path) -> None:
    (tmp_path / "tunic.piece").write_text(HEAD + '    uses  "bands.piece"\n    chart "women.csv"\n')
    texts = read_texts(tmp_path / "tunic.piece")
    assert "folded_band" in [template.name for file in texts.used for template in file.templates]
    assert chart_of(texts) == folder("pieces") / "women.csv"


@pytest.mark.parametrize(
    "name", ["../secret.piece", "/etc/passwd", "sub/bands.piece", "..", ".", ".hidden.piece", "sub\\bands.piece", ""]
)
@pytest.mark.parametrize("setting", ["uses", "chart"])
def test_a_pattern_leads_the_reader_to_no_other_folder(tmp_path: Path, setting: str, name: str) -> None:
    (tmp_path / "secret.piece").write_text("template strip\n    points\n        a at 0, 0\n")
    (tmp_path / "sub").mkdir()
    (tmp_path / "sub" / "bands.piece").write_text("template strip\n    points\n        a at 0, 0\n")
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "tunic.piece").write_text(f'{HEAD}    {setting} "{name}"\n')
    (said,) = messages(tmp_path / "own" / "tunic.piece")
    assert said in (f"`{name}` is not the plain name of a file beside this one", "this names no file")


def test_not_by_a_link_either(tmp_path: Path) -> None:
    (tmp_path / "secret.piece").write_text("template strip\n    points\n        a at 0, 0\n")
    own = tmp_path / "own"
    own.mkdir()
    (own / "link.piece").symlink_to(tmp_path / "secret.piece")
    (own / "tunic.piece").write_text(HEAD + '    uses "link.piece"\n')
    assert messages(own / "tunic.piece") == ["there is no file `link.piece` beside this one"]


def test_a_file_of_templates_uses_no_further_files(tmp_path: Path) -> None:
    """Two files that use one another are read once each."""
    for one, other in (("a", "b"), ("b", "a")):
        (tmp_path / f"{one}.piece").write_text(HEAD + f'    uses "{other}.piece"\n')
    assert len(read_texts(tmp_path / "a.piece").used) == 1


def test_the_mistakes_of_all_used_files_are_told_together(tmp_path: Path) -> None:
    (tmp_path / "one.piece").write_text("let\n    a = = 1\n")
    (tmp_path / "two.piece").write_text("let\n    b = 2 furlongs\n")
    (tmp_path / "tunic.piece").write_text(HEAD + '    uses "one.piece"\n    uses "two.piece"\n    uses "three.piece"\n')
    assert messages(tmp_path / "tunic.piece") == [
        "a value was expected, but `=` stands here",
        "`furlongs` is not a unit",
        "there is no file `three.piece` beside this one",
    ]


def test_a_folder_of_a_bundled_patterns_name_is_not_the_pattern(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "marlpit").mkdir()
    (tmp_path / "other").mkdir()
    assert find("marlpit") == folder("pieces") / "marlpit.piece"
    assert find("other") == Path("other")
