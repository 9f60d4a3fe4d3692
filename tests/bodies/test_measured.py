"""The list of measures that the command prints."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from draft.answers.body_measures import measure_files, measure_report, measures_report
from draft.base.notes import Problems
from draft.bodies.measures import MEASURES
from draft.command.main import commands


def test_all_are_listed_with_limits_in_the_order_of_measuring() -> None:
    names = [line.split()[0] for line in measures_report().splitlines()[1:]]
    assert names == list(MEASURES)


def test_one_is_told_with_its_clause_and_in_both_units() -> None:
    told = measure_report("bust_girth")
    assert "ISO 8559-1:2017, 5.3.4" in told and "60 cm to 180 cm; 23 5/8 in to 70 7/8 in" in told
    assert "a term of the trade" in measure_report("armpit_depth")
    assert "8 deg to 45 deg" in measure_report("shoulder_slope") and " in to " not in measure_report("shoulder_slope")


def test_a_word_near_a_measure_is_led_to_it() -> None:
    with pytest.raises(Problems) as caught:
        measure_report("bust")
    assert caught.value.notes[0].hints == ("try `bust_girth`",)


def test_each_has_a_drawing() -> None:
    files = measure_files()
    assert files.keys() == {f"{name}.svg" for name in MEASURES}
    assert all(data.startswith(b"<svg") for data in files.values())


def test_the_command_lists_them() -> None:
    done = CliRunner().invoke(commands, ["measures", "hand_girth"])
    assert done.exit_code == 0 and "knuckles" in done.output
