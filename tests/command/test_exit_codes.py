"""0 for done, 1 for a problem with what was given, 2 for a wrong use; and one clear message for each."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.resources import folder
from draft.bodies.chart import read_chart
from tests.command.run import Runner


def test_what_is_sound_exits_with_0_and_says_nothing_on_the_side(run: Runner) -> None:
    for words in (("walk", "marlpit"), ("about", "marlpit"), ("walk", "marlpit", "--sizes", "M, L,,M")):
        ran = run(*words)
        assert (ran.code, ran.err) == (0, ""), words
        assert ran.out


def test_help_and_version_exit_with_0(run: Runner) -> None:
    assert run("--help").code == run("-h").code == run("pack", "--help").code == run("--version").code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("walk",), "Missing argument"),
        (("pack", "marlpit"), "--out"),
        (("pack", "marlpit", "--out"), "requires an argument"),
        (("sew", "marlpit"), "No such command"),
        (("walk", "marlpit", "--colour", "red"), "No such option"),
        (("walk", "marlpit", "--style", "bust_ease"), "NAME=VALUE"),
        (("walk", "marlpit", "--style", "=4cm"), "NAME=VALUE"),
        (("walk", "marlpit", "--style", "bust_ease="), "NAME=VALUE"),
        (("walk", "marlpit", "--style", "bust_ease=4cm", "--style", "bust_ease=5cm"), "given twice"),
        (("walk", "marlpit", "--body", "ines.toml", "--sizes", "M"), "--sizes"),
        (("walk", "marlpit", "--body", "ines.toml", "--chart", "women.csv"), "--chart"),
    ],
)
def test_a_wrong_use_exits_with_2(run: Runner, words: tuple[str, ...], said: str) -> None:
    ran = run(*words)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err and "Usage:" in ran.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("walk", "marlpitt"), "there is no pattern called `marlpitt`\n  try `marlpit`"),
        (("walk", "no_such.piece"), "there is no pattern `no_such.piece`"),
        (("walk", "bands"), "holds no pattern"),
        (("walk", "."), "cannot be read: is a directory"),
        (("walk", "marlpit", "--sizes", "Q"), "there is no size `Q`\n  choose from XS, S"),
        (("walk", "marlpit", "--sizes", "xs"), "there is no size `xs`\n  did you mean `XS`?\n  choose from XS, S"),
        (("walk", "marlpit", "--sizes", ","), "no size was asked for"),
        (("walk", "marlpit", "--style", "bust_easy=4cm"), "no style called `bust_easy`\n  try `bust_ease`"),
        (("walk", "marlpit", "--style", "bust_ease=99cm"), "`--style bust_ease=99cm` lies outside -6 cm to"),
        (("walk", "marlpit", "--style", "bust_ease=wide"), "`wide` is not a quantity\n  try `bust_ease="),
        (("walk", "marlpit", "--style", "neckline=turtle"), "`neckline` has no option `turtle`\n  choose from crew"),
        (("walk", "marlpit", "--chart", "no_such.csv"), "there is no size chart `no_such.csv`"),
        (("walk", "marlpit", "--chart", "."), "cannot be read: is a directory"),
        (("walk", "marlpit", "--body", "no_such.toml"), "there is no file of measures `no_such.toml`"),
        (("walk", "marlpit", "--body", "."), "cannot be read: is a directory"),
        (("about", "no_such.piece"), "there is no pattern `no_such.piece`"),
    ],
)
def test_a_problem_with_what_was_given_exits_with_1_and_one_message(
    run: Runner, words: tuple[str, ...], said: str
) -> None:
    ran = run(*words)
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.count("error: ") == 1 and said in ran.err


def test_files_that_are_no_text_are_told_so(run: Runner, tmp_path: Path) -> None:
    for name, words in (("a.piece", ()), ("a.csv", ("--chart",)), ("a.toml", ("--body",))):
        odd = tmp_path / name
        odd.write_bytes(b"measure,unit,M\n\xff\xfe\n")
        ran = run("walk", *(("marlpit", *words, odd) if words else (odd,)))
        assert ran.code == 1
        assert "line 2" in ran.err and "is not UTF-8" in ran.err


def test_all_problems_of_the_command_line_are_told_at_once(run: Runner) -> None:
    ran = run("walk", "marlpit", "--style", "bust_ease=99cm", "--style", "colour=red", "--style", "neckline=v")
    assert ran.code == 1
    assert all(word in ran.err for word in ("bust_ease=99cm", "`colour`", "`v`"))


def test_a_problem_in_a_file_is_shown_where_it_stands(run: Runner, tmp_path: Path) -> None:
    file = tmp_path / "tunic.piece"
    file.write_text('pattern tunic\n    title "Tunic"\n\nlet\n    ease = 4 furlongs\n    drop = \n')
    ran = run("walk", file)
    assert ran.code == 1
    assert "tunic.piece:5:14: `furlongs` is not a unit" in ran.err
    assert "tunic.piece:6:10: the line ends too soon" in ran.err
    assert "    5 |     ease = 4 furlongs\n      |              ^^^^^^^^" in ran.err


UNEVEN = """
pattern uneven
    title "Uneven"
    chart "women.csv"

body
    bust_girth

piece front
    points
        a at 0, 0
        b at 10 cm, 0
        c at 10 cm, 8 cm
        d at 0, 8 cm
    outline
        low   a to b straight
        side  b to c straight
        top   c to d straight
        back  d to a straight
    cut 1

join
    low  front.low to front.side
"""


def test_seams_that_do_not_fit_are_walked_and_drawn_and_not_packed(run: Runner, tmp_path: Path) -> None:
    file = tmp_path / "uneven.piece"
    file.write_text(UNEVEN)
    walked = run("walk", file)
    assert walked.code == 1
    assert "does not fit" in walked.out and "the two sides of `low` do not fit" in walked.err
    drawn = run("draft", file, "--out", tmp_path / "drawn")
    assert drawn.code == 1
    assert list((tmp_path / "drawn").rglob("*.svg"))
    packed = run("pack", file, "--out", tmp_path / "packed")
    assert packed.code == 1
    assert not (tmp_path / "packed").exists()


def test_what_the_solver_chose_is_told(run: Runner) -> None:
    ran = run("walk", "marlpit")
    assert ran.out.startswith("solved")
    sizes = read_chart(folder("pieces") / "women.csv").names
    assert ran.out.split("\n")[0].split() == ["solved", *sizes]
