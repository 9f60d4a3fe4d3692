"""A pattern in an envelope drafts as its folder does, byte for byte, and nothing of the envelope is ever unpacked."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.disk import is_file
from draft.base.envelope import Envelope, envelope_bytes
from draft.base.notes import Problems
from draft.drafting.checked import draft_and_check
from draft.pack.printed_files import svg_files
from draft.pack.wording_of import wording_of
from draft.plan.library import find
from draft.sharing.enclosed import enclosed, sealed, unsealed
from draft.studio.studio_file import studio_beside
from tests.asking import asked

BLOCK = """\
pattern block
    title "Block"
    chart "own.csv"

body
    bust_girth

piece panel
    cut 1
    points
        a at 0, 0
        b at bust_girth / 4, 0
        c at bust_girth / 4, 10 cm
        d at 0, 10 cm
    outline
        lower a to b straight, turned up
        side b to c straight
        upper c to d straight
        middle d to a straight

booklet
    picture "cover.svg"
    step panel.lower picture "press.svg"
"""
OWN = 'pattern mine from "block.piece"\n    title "Mine"\n'
CHART = "measure,unit,S,M\nbust_girth,cm,86,94\n"
PICTURE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0L10 10"/></svg>\n'
STUDIO = 'name = "Saltern Lane"\nmark = "mark.svg"\n\n[prices]\ncurrency = "EUR"\n\n[prices.cloth]\ncloth = 9\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder of patterns with all that one may use."""
    texts = {
        "block.piece": BLOCK, "mine.piece": OWN, "own.csv": CHART, "press.svg": PICTURE, "cover.svg": PICTURE,
        "mark.svg": PICTURE,
        "mine.de.toml": '"Mine" = "Meins"\n', "block.de.toml": '"Block" = "Grundschnitt"\n', "studio.toml": STUDIO,
        "jersey.toml": 'stretch_across = "50 %"\n', "me.toml": '[measures]\nbust_girth = "90 cm"\n',
    }  # fmt: skip
    for name, text in texts.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def test_it_holds_all_that_the_pattern_uses_and_nobodys_measures_or_prices(folder: Path) -> None:
    made = enclosed(str(folder / "mine.piece"), [folder / "jersey.toml"])
    assert made.opens == "mine.piece"
    assert set(made.files) == {file.name for file in folder.iterdir()} - {"me.toml"}
    studio = made.files["studio.toml"].decode()
    assert "Saltern Lane" in studio and "prices" not in studio and "EUR" not in studio


@pytest.mark.parametrize("line", ["prices.currency = 'EUR'\n", "prices = { currency = 'EUR' }\n"])
def test_prices_between_other_lines_are_not_handed_on(folder: Path, line: str) -> None:
    (folder / "studio.toml").write_text('name = "Saltern Lane"\n' + line)
    with pytest.raises(Problems, match="would be handed on"):
        enclosed(str(folder / "mine.piece"))


def test_two_files_of_one_name_are_told(folder: Path) -> None:
    (folder / "other").mkdir()
    (folder / "other" / "own.csv").write_text("measure,unit,L\nbust_girth,cm,99\n")
    with pytest.raises(Problems, match=r"two files are called `own.csv`"):
        enclosed(str(folder / "mine.piece"), [folder / "other" / "own.csv"])


def test_what_is_missing_is_told_with_its_place(folder: Path) -> None:
    (folder / "own.csv").unlink()
    with pytest.raises(Problems, match=r"there is no file `own.csv`"):
        enclosed(str(folder / "mine.piece"))


def test_a_mistake_is_shown_at_its_place_in_the_envelope(folder: Path) -> None:
    (folder / "mine.piece").write_text(OWN + "\nstyle\n    width 3 cm from 1 cm to 5 oranges\n")
    data = {
        "mine.piece": (folder / "mine.piece").read_bytes(),
        "block.piece": BLOCK.encode(),
        "own.csv": CHART.encode(),
    }

    (folder / "mine.envelope").write_bytes(envelope_bytes(Envelope("mine.piece", data)))
    with pytest.raises(Problems) as raised:
        draft_and_check(asked(folder / "mine.envelope"))
    assert str(raised.value.notes[0].span).startswith("mine.envelope/mine.piece:5:")


@pytest.mark.parametrize("name", ["marlpit", "tidemill"])
def test_a_bundled_pattern_drafts_from_it_byte_for_byte(name: str, tmp_path: Path) -> None:
    place = tmp_path / f"{name}.envelope"
    place.write_bytes(sealed(enclosed(name)))
    drafted = [draft_and_check(asked(pattern, sizes=["M"])) for pattern in (name, place)]
    assert svg_files(drafted[0].to_cut) == svg_files(drafted[1].to_cut)
    assert wording_of(drafted[0].planned, "de", "cm") == wording_of(drafted[1].planned, "de", "cm")
    assert list(tmp_path.iterdir()) == [place]


def test_it_is_taken_out_and_put_in_again_as_it_was(folder: Path, tmp_path: Path) -> None:
    made = enclosed(str(folder / "mine.piece"))
    (folder / "a.envelope").write_bytes(sealed(made))
    there = tmp_path / "there"
    there.mkdir()
    for name, data in unsealed(folder / "a.envelope", there).items():
        (there / name).write_bytes(data)
    assert enclosed(str(there / "mine.piece")) == made == enclosed(str(folder / "a.envelope"))
    (there / "own.csv").write_text(CHART + "waist_girth,cm,1,2\n")
    with pytest.raises(Problems, match="is there and differs"):
        unsealed(folder / "a.envelope", there)


def test_any_file_in_it_may_be_named(folder: Path) -> None:
    (folder / "a.envelope").write_bytes(sealed(enclosed(str(folder / "mine.piece"))))
    assert find(str(folder / "a.envelope")) == folder / "a.envelope" / "mine.piece"
    assert draft_and_check(asked(folder / "a.envelope" / "block.piece")).garment.title == "Block"


def test_a_studio_is_found_in_it(folder: Path) -> None:
    (folder / "a.envelope").write_bytes(sealed(enclosed(str(folder / "mine.piece"))))
    studio = studio_beside(folder / "a.envelope")
    assert studio and studio.name == "Saltern Lane" and not studio.prices.cloth
    assert studio.mark and is_file(studio.mark)
