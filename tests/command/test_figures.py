"""`--figure` and the list of what can be said, as a user types them."""

from __future__ import annotations

from tests.command.run import Runner

WHOM = ("--like", "bust M, waist M, hip M")


def test_a_figure_moves_a_size(run: Runner):
    told = run("fit", "tidemill", *WHOM, "--figure", "sloping shoulders")
    assert (
        "shoulder_slope  26.1 deg  give or take 5.9 deg  the size's; moved for `sloping shoulders`"
        in told.out + told.err
    )


def test_a_file_of_measures_may_describe_the_figure(run: Runner, tmp_path):
    file = tmp_path / "ines.toml"
    measures = 'bust_girth = "98 cm"\nwaist_girth = "80 cm"\nhip_girth = "104 cm"\nstature = "165 cm"\n'
    file.write_text(f'figure = "broad back"\n[measures]\n{measures}')
    assert "moved for `broad back`" in run("fit", "lockside", "--body", str(file)).out
    file.write_text(f'figure = "brod back"\n[measures]\n{measures}')
    told = run("fit", "lockside", "--body", str(file))
    assert told.code == 1
    assert "ines.toml" in told.err and "`brod back` is not said of a figure here" in told.out + told.err


def test_sizes_have_no_figure(run: Runner):
    told = run("fit", "tidemill", "--figure", "sway back")
    assert told.code == 2
    assert "`--figure` is about one person" in told.out + told.err


def test_all_sayings_are_drawn(run: Runner, tmp_path):
    told = run("figures", "--out", str(tmp_path))
    assert told.code == 0
    for name in ("sloping_shoulders", "bust_D", "sway_back"):
        assert (tmp_path / f"{name}.svg").read_text().count("<path") > 10
