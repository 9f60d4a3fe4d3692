"""A maker's own allowance: outside all seams, in lines and in words, and hems as the designer has them."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from draft.command.main import commands
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.exchange.dxf import dxf_files
from draft.paper.drawing.wording import ENGLISH
from draft.seams.allowance import cutting_line
from tests.asking import bundled

ONE = Whom(sizes=("M",))


@pytest.mark.parametrize("own", [0.0, 10.0, 15.875])
@pytest.mark.parametrize("pattern", ["marlpit", "breakwater", "boatyard"])
def test_seams_have_it_and_hems_their_own(pattern: str, own: float) -> None:
    hers = draft_and_check(Request(pattern, ONE, allowance=own), whole=True).to_cut
    usual = bundled(pattern, "M").to_cut
    for piece, before in zip(hers.pieces, usual.pieces, strict=True):
        for edge, old in zip(piece.edges, before.edges, strict=True):
            seam = not (old.turned_up or old.on_fold) and old.allowance > 0
            assert edge.allowance == (own if seam else old.allowance)
        assert cutting_line(piece, 0).shape[1:] == (4, 2)


def test_words_and_outlines_follow() -> None:
    wide, usual = (draft_and_check(Request("marlpit", ONE, allowance=own)).to_cut for own in (15.875, None))
    assert "5/8 in (1.6 cm)" in ENGLISH.allowances(wide.pieces[0])[0]
    assert ENGLISH.allowances(wide.pieces[0])[1:] == ENGLISH.allowances(usual.pieces[0])[1:]  # the hem
    assert dxf_files(wide) != dxf_files(usual)


@pytest.mark.parametrize(
    ("text", "fact"), [("1", "not a length"), ("9cm", "wider than a seam"), ("wide", "not a quantity")]
)
def test_what_is_no_allowance_is_told(text: str, fact: str) -> None:
    ran = CliRunner().invoke(commands, ["lay", "marlpit", "--allowance", text])
    assert ran.exit_code == 2 and fact in ran.output
