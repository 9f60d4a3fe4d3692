"""Two versions compared for who has the older one: what is told of each kind of change, and which pages it is on."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from draft.base.resources import folder
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.paper.drawing.papers import PAPERS
from draft.paper.drawing.wording import Wording
from draft.paper.pages.page_grid import pieces_by_page
from draft.paper.pages.paged_sheet import PagedSheet, paged_sheet
from draft.paper.pages.sheet import draw_pattern, on_pages
from draft.release.changes_told import changes_told
from draft.release.drafts_apart import GarmentChange, drafts_apart
from draft.release.pages_again import PagesAgain, pages_again
from draft.sharing.enclosed import enclosed, sealed

HEAD = 'pattern gorse from "marlpit.piece"\n    title "Gorse top"\n'


def _drafted(folder: Path, more: str = "", **styles: str) -> Drafted:
    (folder / "gorse.piece").write_text(HEAD + more, encoding="utf-8")
    return draft_and_check(Request(str(folder / "gorse.piece"), Whom(sizes=("S", "M")), styles))


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Drafted:
    return _drafted(tmp_path_factory.mktemp("plain"))


def _apart(old: Drafted, new: Drafted) -> GarmentChange:
    return drafts_apart(old.garment, new.garment)


def test_nothing_differs_from_itself(plain: Drafted, tmp_path: Path) -> None:
    found = _apart(plain, _drafted(tmp_path))
    assert found.is_nothing and set(found.same) == {"front", "back", "sleeve_band", "neckband"}
    said = changes_told(found, "1.0", (plain.garment, plain.garment), (), Wording())
    assert said == ["No piece has changed. What you have printed of version 1.0 is good for this one too."]


def test_how_far_an_outline_moves_is_what_the_style_moves(plain: Drafted, tmp_path: Path) -> None:
    """A quarter of the ease lies at each half piece: 6 cm more at the waist move its side by 15 mm."""
    found = _apart(plain, _drafted(tmp_path, waist_ease="21cm"))
    front = next(one for one in found.changed if one.piece == "front")
    assert front.kinds == ("outline",)
    assert front.moved == pytest.approx(np.full(2, 15.0), abs=1.5)
    said = changes_told(found, "1.0", (plain.garment, plain.garment), (), Wording())
    told = next(line for line in said if line.startswith("Front: its outline moves by"))
    assert told.endswith("Print it again in S – M.")
    assert said[-1] == "As they were: Sleeve band and Neckband."


@pytest.mark.parametrize(
    ("more", "pieces", "kind", "words"),
    [
        ("    allowance 1 cm\n", {"front", "back"}, "allowance", "its seam allowances are others"),
        ("\njoin\n    underarm  front.underarm to back.underarm, notch at 60 %\n", {"front", "back"}, "notches",
         "its notches lie elsewhere"),
    ],
)  # fmt: skip
def test_what_moves_no_sewing_line_is_told_too(
    plain: Drafted, tmp_path: Path, more: str, pieces: set[str], kind: str, words: str
) -> None:
    new = _drafted(tmp_path, more)
    found = _apart(plain, new)
    changed = {one.piece: one.kinds for one in found.changed}
    assert pieces <= set(changed) and set(changed.values()) == {(kind,)}
    said = changes_told(found, "1.0", (plain.garment, new.garment), (), Wording())
    assert any(words in line for line in said)


def test_a_new_piece_and_a_missing_one_are_told(plain: Drafted) -> None:
    less = replace(plain.garment, pieces=plain.garment.pieces[:-1])
    gone = plain.garment.pieces[-1].name
    found = drafts_apart(plain.garment, less)
    assert found.missing == (gone,) and not found.new
    other = drafts_apart(less, plain.garment)
    assert other.new == (gone,) and other.again == {gone}


def _sheet(drafted: Drafted, paper: str = "a4") -> PagedSheet:
    drawn = draw_pattern(drafted.to_cut, [0, 1], None, Wording())
    return paged_sheet(on_pages(drawn, PAPERS[paper].live), PAPERS[paper], "Gorse top")


def test_only_pages_with_a_piece_that_differs_are_printed_again(plain: Drafted) -> None:
    sheet, again = _sheet(plain), _sheet(plain)
    shown = {page.number for page, names in pieces_by_page(sheet.drawing, sheet.grid).items() if "Neckband" in names}
    found = pages_again(sheet, again, ["Neckband"])
    assert set(found.numbers or ()) == shown and 0 < len(shown) < len(sheet.grid.pages)
    assert pages_again(sheet, again, []).numbers == ()
    assert pages_again(_sheet(plain, "a3"), again, ["Neckband"]) == PagesAgain("a4", None)


def test_pages_are_told_as_ranges(plain: Drafted) -> None:
    found = GarmentChange(("S", "M"), (), ("front",), ("back",), ())
    pages = [PagesAgain("a4", (3, 4, 5, 9)), PagesAgain("letter", None), PagesAgain("a3", (7,)), PagesAgain("a5", ())]
    said = changes_told(found, "1.0", (plain.garment, plain.garment), pages, Wording())
    assert said[-4:] == [
        "A4: of an older printing change pages 3–5, 9.",
        "Letter: print all pages again, as the pieces lie elsewhere on them.",
        "A3: of an older printing change page 7.",
        "A5: no page of an older printing has to be changed.",
    ]


def test_the_same_lines_from_a_text_and_from_its_envelope_are_the_same(tmp_path: Path) -> None:
    """Where a line stands is no change of a piece: neither in another file, nor below a word more."""
    text = (folder("pieces") / "marlpit.piece").read_text("utf-8").replace("pattern marlpit", "pattern own", 1)
    own = tmp_path / "own.piece"
    own.write_text(text, encoding="utf-8")
    (tmp_path / "own.envelope").write_bytes(sealed(enclosed(str(own))))
    own.write_text("# A line more.\n" + text, encoding="utf-8")
    one, other = (
        draft_and_check(Request(str(tmp_path / f"own.{kind}"), Whom(sizes=("M",)))) for kind in ("envelope", "piece")
    )
    assert _apart(one, other).is_nothing
