"""The commands `walk --sections` and `true`: what they print, and how they refuse."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from draft.base.notes import Problems
from draft.command.main import commands

TEXT = """
pattern tunic
    title "Tunic"

piece front
    points
        a at 0, 0
        b at 20 cm, 0
        c at 23 cm, 40 cm
        d at 0, 40 cm
    outline
        hem    a to b straight
        side   b to c straight
        top    c to d straight
        left   d to a straight
    cut 2

piece back
    points
        a at 0, 0
        b at 20 cm, 0
        c at 23 cm, 40 cm
        d at 0, 40 cm
    outline
        hem    a to b straight
        side   b to c straight
        top    c to d straight
        left   d to a straight
    cut 2

join
    side  front.side to back.side, notch at 10 cm{}   "sew it"
"""


def ran(*words: str) -> Result:
    return CliRunner().invoke(commands, list(words))


def written(folder: Path, option: str = "") -> str:
    path = folder / "tunic.piece"
    path.write_text(TEXT.format(option))
    return str(path)


def drafted(folder: Path, command: str, *more: str, option: str = "") -> Result:
    return ran(command, written(folder, option), "--measure", "bust_girth=90cm", *more)


def test_sections_are_walked_from_notch_to_notch() -> None:
    done = ran("walk", "tidemill", "--sizes", "M", "--sections")
    lines = [line.split() for line in done.output.splitlines() if line.startswith("cap ")]
    assert done.exit_code == 0 and len(lines) == 4
    assert [line[-2] for line in lines] == ["1.0"] * 4  # the ease of the cap is spread evenly: one in a hundred
    assert "notch 1" in done.output and "double notch 3" in done.output


def test_what_does_not_run_on_is_listed_with_the_words_to_write(tmp_path: Path) -> None:
    done = drafted(tmp_path, "true", "--over", "5 cm")
    assert done.exit_code == 0
    assert "front.hem and back.hem" in done.output and "8.6 (" in done.output and "hollow" in done.output
    line = '    side  front.side to back.side, notch at 10 cm, trued over 5 cm   "sew it"'
    assert line in done.output.splitlines()


def test_a_join_on_several_rows_is_written_on_one(tmp_path: Path) -> None:
    path = Path(written(tmp_path))
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(", notch at 10 cm", ",  # see below\n            notch at 10 cm"), encoding="utf-8")
    done = ran("true", str(path), "--measure", "bust_girth=90cm", "--over", "5 cm")
    line = '    side  front.side to back.side, notch at 10 cm, trued over 5 cm   "sew it"'
    assert line in done.output.splitlines()


def test_the_words_written_leave_nothing_to_true(tmp_path: Path) -> None:
    done = drafted(tmp_path, "true", option=", trued over 5 cm")
    assert "all outlines run on across their seams, within 0.1 deg" in done.output


def test_a_length_that_is_none_is_refused(tmp_path: Path) -> None:
    for over in ("20 deg", "soon", "0 cm"):
        done = drafted(tmp_path, "true", "--over", over)
        assert done.exit_code == 2 and "--over" in done.output
        assert not isinstance(done.exception, Problems)
