"""A pack made from two records by two functions: the command gives the same, and neither needs the command."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from draft.base.notes import Problems
from draft.command.main import commands
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest, names_in

BAD = Path(__file__).parents[1] / "bad"
SMALL = PaperRequest(pages=("a4",), cloth=())
ONE_SIZE = Request("marlpit", Whom(sizes=("M",)))


@pytest.fixture(scope="module")
def drafted() -> Drafted:
    return draft_and_check(ONE_SIZE, whole=True)


def test_the_command_packs_what_the_records_ask_for(drafted: Drafted, tmp_path: Path) -> None:
    words = ["pack", "marlpit", "--sizes", "M", "--page", "A4", "--paper", "a0", "--units", "cm", "--language", "de"]
    ran = CliRunner().invoke(commands, [*words, "--cloth", "none", "--out", str(tmp_path)])
    said: list[str] = []
    files = pack_files(drafted, replace(SMALL, large=("a0",), units="cm", language="de"), tell=said.append)
    assert ran.exit_code == 0
    assert {str(path.relative_to(tmp_path)): path.read_bytes() for path in tmp_path.rglob("*.*")} == files
    assert ran.output.endswith("\n".join(said) + "\n")


def test_a_pack_is_made_without_the_command() -> None:
    program = """
import sys
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest

drafted = draft_and_check(Request("marlpit", Whom(like="bust M, hip L")), whole=True)
files = pack_files(drafted, PaperRequest(pages=("a5",), cloth=()))
assert {"booklet.pdf", "pattern-a5.pdf", "flat.svg", "tables/ease.csv"} <= set(files), set(files)
assert "click" not in sys.modules and not [name for name in sys.modules if name.startswith("draft.command")]
"""
    subprocess.run([sys.executable, "-c", program], check=True)


def test_what_has_faults_is_not_packed() -> None:
    uneven = draft_and_check(Request(str(BAD / "seams_of_other_lengths.piece")))
    with pytest.raises(Problems, match="do not fit"):
        pack_files(uneven, SMALL)


def test_cloth_is_of_the_widths_asked_for(drafted: Drafted) -> None:
    with pytest.raises(Problems, match="`wide` is not a quantity"):
        pack_files(drafted, replace(SMALL, cloth=("wide",)))


def test_names_of_papers_are_read_from_a_text() -> None:
    assert names_in("Letter, a4,,A4") == ("letter", "a4")
    assert names_in("none") == names_in("") == ()
