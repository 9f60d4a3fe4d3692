"""Fabrics: what a small file says, and every mistake in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.base.resources import folder
from draft.fabrics.fabric import find_fabric, read_fabric
from draft.fabrics.properties import PROPERTIES, percent

JERSEY = """name = "cotton jersey"
stretch_across = "50 %"
stretch_down = "25 %"
width = "59 in"
shrinkage_down = "-1 %"
"""


def _notes(path: Path, text: str) -> list[tuple[str, str]]:
    file = path / "jersey.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Problems) as caught:
        read_fabric(file)
    return [(note.message, note.hints[0] if note.hints else "") for note in caught.value.notes]


def test_a_fabric_is_read_in_its_units_and_what_is_missing_is_usual(tmp_path: Path) -> None:
    file = tmp_path / "jersey.toml"
    file.write_text(JERSEY, encoding="utf-8")
    fabric = read_fabric(file)
    assert fabric.name == "cotton jersey"
    assert (fabric.get("stretch_across"), fabric.get("stretch_down")) == (0.5, 0.25)
    assert fabric.get("width") == pytest.approx(1498.6)
    assert fabric.get("recovery") == 1.0 and fabric.get("shrinkage_across") == 0.0
    assert fabric.shrinks


@pytest.mark.parametrize(
    ("line", "fact", "fix"),
    [
        ('strech_across = "50 %"', "`strech_across` is not a property of cloth", "try `stretch_across`"),
        ("stretch_across = 50", "`stretch_across` is 5000 %, outside 0 % to 250 %", "did you mean 50 %?"),
        ('stretch_across = "5 cm"', "`stretch_across` is not a number", 'write `stretch_across = "50 %"`'),
        ('width = "60 %"', "`width` is not a length", 'write `width = "150 cm"`'),
        ('width = "150 mm"', "`width` is 15 cm, outside 20 cm to 400 cm", "find it again: between the selvedges"),
        ("recovery = true", "`recovery` is not a number", 'write `recovery = "90 %"`'),
        ("", "`jersey.toml` says nothing about a fabric", 'add lines such as `stretch_across = "50 %"`'),
        ("stretch_across = 50 %", "`50 %` needs quotes around it", 'try `stretch_across = "50 %"`'),
    ],
)  # fmt: skip
def test_a_mistake_is_told_with_a_fix(tmp_path: Path, line: str, fact: str, fix: str) -> None:
    assert _notes(tmp_path, line) == [(fact, fix)]


def test_all_mistakes_are_told_at_once(tmp_path: Path) -> None:
    assert len(_notes(tmp_path, "name = 3\nwidth = 2\nstretch = 3\n")) == 3


@pytest.mark.parametrize("file", sorted((folder("pieces") / "fabrics").glob("*.toml")), ids=lambda f: f.stem)
def test_bundled_fabrics_are_found_by_name_and_lie_in_their_class(file: Path) -> None:
    """Classes of the trade by stretch across (from memory): to 25, 50, 75 and 100 %, and rib beyond."""
    assert find_fabric(file.stem) == file
    fabric = read_fabric(file)
    classes = {"stable": (0, 0.25), "moderate": (0.26, 0.5), "stretchy": (0.51, 0.75), "very_stretchy": (0.76, 1),
               "rib": (1.01, 2.5)}  # fmt: skip
    low, high = classes[file.stem]
    assert low <= fabric.get("stretch_across") <= high
    assert fabric.get("stretch_down") < fabric.get("stretch_across")


def test_a_fabric_that_is_not_there_is_led_to_the_nearest() -> None:
    with pytest.raises(Problems) as caught:
        find_fabric("stretch")
    assert caught.value.notes[0].hints == ("try `stretchy`",)


def test_shares_are_said_as_a_person_writes_them() -> None:
    assert [percent(x) for x in (0.5, 0.025, 0, -0.0001, 1.1)] == ["50 %", "2.5 %", "0 %", "0 %", "110 %"]
    assert all(p.in_words(p.low) and p.low <= p.usual <= p.high for p in PROPERTIES.values())
