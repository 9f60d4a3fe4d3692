"""`plainseam lay`: how much cloth, as a person asks for it, and mistakes in asking."""

from pathlib import Path

import pytest

from tests.command.run import Runner


def test_lay_says_all_three_lays_and_what_to_buy(run: Runner) -> None:
    ran = run("lay", "marlpit", "--sizes", "M,L", "--effort", "quick")
    assert ran.code == 0
    head = next(line for line in ran.out.splitlines() if line.startswith("size"))
    assert all(word in head for word in ("open", "one fold", "two folds", "shortest", "length", "buy"))
    rows = [line for line in ran.out.splitlines() if line.startswith(("M ", "L "))]
    assert len(rows) == 2 and all(" yd or " in row and " % " in row for row in rows)
    assert "cloth 58 in (148 cm) wide; pieces may be turned end for end" in ran.out


def test_lay_writes_diagrams_and_the_table(run: Runner, tmp_path) -> None:
    ran = run(
        "lay", "marlpit", "--sizes", "M", "--width", "150 cm", "--one-way", "--effort", "quick", "--out", tmp_path
    )
    assert ran.code == 0
    assert (tmp_path / "cloth" / "150cm-one-way-M.svg").is_file()
    assert (tmp_path / "tables" / "cloth.csv").read_text().splitlines()[1].split(",")[2] == "one way"


def test_the_table_has_all_common_widths(run: Runner) -> None:
    ran = run("lay", "ropewalk", "--sizes", "S", "--table", "--effort", "quick")
    of_two_cloths = 4  # with a nap and without
    for width in ("54 in", "58 in", "60 in", "137 cm", "147 cm", "152 cm"):
        assert sum(line.startswith(f"{width} (") for line in ran.out.splitlines()) == of_two_cloths


def test_one_kind_of_lay(run: Runner) -> None:
    ran = run("lay", "marlpit", "--sizes", "M", "--kind", "one-fold", "--effort", "quick")
    assert "one fold" in ran.out and "open" not in ran.out.split("cloth 58 in")[1]


def test_shrinkage_makes_the_bill_longer(run: Runner) -> None:
    plain = run("lay", "marlpit", "--sizes", "M", "--effort", "quick", "--kind", "one-fold").out
    shrunk = run(
        "lay", "marlpit", "--sizes", "M", "--effort", "quick", "--kind", "one-fold", "--shrink-down", "10%"
    ).out
    amount = [float(text.split(" yd or ")[1].split(" m")[0]) for text in (plain, shrunk)]
    assert amount[1] > amount[0] and "shrinks 0 % across and 10 % down" in shrunk


def test_a_fabric_tells_its_width_and_shrinkage(run: Runner, tmp_path) -> None:
    file = tmp_path / "jersey.toml"
    file.write_text('name = "jersey"\nstretch_across = "60 %"\nwidth = "170 cm"\nshrinkage_down = "4 %"\n')
    ran = run("lay", "marlpit", "--sizes", "M", "--effort", "quick", "--fabric", file)
    assert "cloth 170 cm" in ran.out and "shrinks 0 % across and 4 % down" in ran.out
    unwashed = run("lay", "marlpit", "--sizes", "M", "--effort", "quick", "--fabric", file, "--unwashed")
    assert "cloth 170 cm" in unwashed.out and "shrinks" not in unwashed.out
    assert "all lengths are of cloth as bought, before washing; wash it, then cut" in ran.out
    assert "cut before washing: the pieces hold what it takes" in unwashed.out


def test_cloth_that_was_measured_washed_is_not_shrunk_again(run: Runner, tmp_path) -> None:
    file = tmp_path / "jersey.toml"
    file.write_text('name = "jersey"\nstretch_across = "60 %"\nshrinkage_down = "20 %"\n')
    have = ("lay", "marlpit", "--sizes", "M", "--have", "1.1 m x 148 cm", "--effort", "quick", "--fabric", file)
    bought, washed = run(*have), run(*have, "--washed")
    assert "more length is needed" in bought.out and "as bought, before washing" in bought.out
    assert "yes, it fits" in washed.out and "cloth that has been washed: nothing more is taken" in washed.out
    for more in ("--unwashed", "--shrink-down=5%"):
        ran = run(*have, "--washed", more)
        assert ran.code == 2 and "`--washed` cloth" in ran.err


def test_how_shrinkage_is_measured_stands_where_it_is_asked_for(run: Runner) -> None:
    ran = run("lay", "marlpit", "--sizes", "M", "--effort", "quick", "--kind", "open")
    assert "nothing is taken off for washing" in ran.out and "mark 50 cm across, wash and dry" in ran.out
    ran = run("lay", "marlpit", "--sizes", "M", "--unwashed")
    assert ran.code == 1 and "mark 50 cm along the length, wash and dry" in ran.err


@pytest.mark.parametrize(
    "have, words", [("1.4 m x 148 cm", "yes, it fits"), ("60 cm x 148 cm", "more length is needed")]
)
def test_stash(run: Runner, have: str, words: str) -> None:
    ran = run("lay", "marlpit", "--sizes", "M", "--have", have, "--effort", "quick")
    assert ran.code == 0 and f"on {have}" in ran.out and words in ran.out


def test_a_stash_of_several_lengths_and_an_outline(run: Runner, tmp_path) -> None:
    lengths = run("lay", "marlpit", "--sizes", "M", "--have", "75cmx90cm", "--have", "80cmx120cm", "--effort", "quick")
    assert "yes, it fits on 75cmx90cm and 80cmx120cm" in lengths.out
    file = tmp_path / "rest.txt"
    file.write_text("0 cm, 0 cm\n150 cm, 0 cm\n150 cm, 80 cm\n100 cm, 120 cm\n0 cm, 120 cm\n")
    ran = run("lay", "marlpit", "--sizes", "M", "--have", file, "--effort", "quick", "--out", tmp_path / "out")
    assert "yes, it fits" in ran.out and (tmp_path / "out" / "cloth" / "stash-M.svg").is_file()


def test_two_tops_on_a_stash(run: Runner) -> None:
    asked = ("lay", "marlpit", "--sizes", "M", "--effort", "quick", "--copies", "2")
    assert "M x 2: yes, it fits on 2.2m x 150cm" in run(*asked, "--have", "2.2m x 150cm").out
    assert "more length is needed" in run(*asked, "--have", "1.2m x 150cm").out


def test_several_at_once(run: Runner, tmp_path) -> None:
    ran = run("lay", "marlpit", "--sizes", "S,M", "--together", "--effort", "quick", "--out", tmp_path)
    assert "S + M" in ran.out and (tmp_path / "cloth" / "together.svg").is_file()
    assert "M x 3" in run("lay", "marlpit", "--sizes", "M", "--copies", "3", "--effort", "quick").out


@pytest.mark.parametrize(
    "words, message",
    [
        (("--width", "30 in"), "`front` in size M is"),
        (("--width", "0 in"), "the cloth has no width"),
        (("--width", "12 deg"), "`12 deg` is not a length"),
        (("--width", "wide"), "`wide` is not a quantity"),
        (("--shrink-across=-3%",), "shrinkage across is less than nothing"),
        (("--shrink-down", "3 cm"), "`3 cm` is not a share"),
        (("--ends=-1cm",), "cannot be kept free at the ends"),
        (("--copies", "5000"), "`sleeve band` in size M alone is cut 10,000 times"),
        (("--have", "some"), "`some` is not a piece of cloth"),
        (("--have", "no.txt"), "there is no remnant's outline"),
        (("--kind", "two-folds", "--width", "34 in"), "cannot be laid with two folds"),
    ],
)  # fmt: skip
def test_a_mistake_is_one_clear_message(run: Runner, words: tuple[str, ...], message: str) -> None:
    ran = run("lay", "marlpit", "--sizes", "M", "--effort", "quick", *words)
    assert ran.code == 1 and message in ran.err


@pytest.mark.parametrize(
    "words",
    [
        ("--together", "--table"),
        ("--have", "1mx1m", "--width", "58in"),
        ("--unwashed", "--shrink-down", "3%"),
        ("--copies", "0"),
    ],
)
def test_options_that_do_not_go_together(run: Runner, words: tuple[str, ...]) -> None:
    assert run("lay", "marlpit", "--sizes", "M", "--effort", "quick", *words).code == 2


SEVERAL = Path(__file__).parents[1] / "good" / "several_cloths.piece"


def test_each_of_several_cloths_is_laid_by_itself(run: Runner, tmp_path) -> None:
    ran = run("lay", SEVERAL, "--sizes", "M", "--width", "150cm", "--width", "lining=140cm", "--out", tmp_path)
    assert ran.code == 0
    assert [line for line in ran.out.splitlines() if line.startswith("cloth ")] == [
        f"cloth {width} wide; pieces may be turned end for end; 1 in (2.5 cm) kept free at each cut end"
        for width in ("150 cm (60 in)", "140 cm (56 in)", "90 cm (36 in)")
    ]
    written = {str(path.relative_to(tmp_path)) for path in tmp_path.rglob("*") if path.is_file()}
    assert written == {
        "cloth/shell/150cm-M.svg", "cloth/lining/140cm-M.svg", "cloth/interfacing/90cm-M.svg",
        "tables/shell/cloth.csv", "tables/lining/cloth.csv", "tables/interfacing/cloth.csv",
    }  # fmt: skip


def test_one_of_several_cloths_alone(run: Runner) -> None:
    ran = run("lay", SEVERAL, "--sizes", "M", "--of", "lining")
    assert ran.code == 0 and ran.out.count("kept free") == 1


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("--of", "linin"), "try `lining`"),
        (("--width", "lin=1m"), "try `lining`"),
        (("--of", "lining", "--width", "shell=1m"), "this pattern has no cloth called `shell`"),
    ],
)
def test_a_cloth_that_is_not_there_is_told(run: Runner, given: tuple[str, ...], said: str) -> None:
    ran = run("lay", SEVERAL, "--sizes", "M", *given)
    assert ran.code == 1 and said in ran.err
