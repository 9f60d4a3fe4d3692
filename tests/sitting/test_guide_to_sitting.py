"""The guide to reading a sheet is true: its commands are the verb's, and it names every figure that is written."""

from __future__ import annotations

import json
import re
import shlex
from dataclasses import replace
from pathlib import Path

import pytest

import draft
from draft.answers.sit import Sat, sit_files
from draft.answers.sit_cases import Case, cases_of
from draft.command.sit_on_form import sit
from draft.drafting.request import Request, Whom
from draft.paper.drawing.wording import Wording
from draft.sitting.figures_of import HEAD, rows_of
from draft.sitting.sit_told import telling
from draft.sitting.sitting_of import Sitting
from draft.toile.dressed import Refused
from draft.toile.why_not import why
from tests.paper.test_worn_pictures import READING
from tests.sitting.made_up import worn

GUIDE = (Path(draft.__file__).parents[1] / "pieces" / "SITTING.md").read_text("utf-8")
NAMED = set(re.findall(r"`([^`\n]+)`", GUIDE))


@pytest.mark.parametrize("line", re.findall(r"^plainseam sit (.*?)(?:\s+#.*)?$", GUIDE, re.MULTILINE))
def test_its_commands_are_the_verb_s(line: str, tmp_path: Path) -> None:
    words = shlex.split(line)
    body = tmp_path / "me.toml"
    body.write_text('[measures]\nbust_girth = "98 cm"\n')
    given = [str(body) if word == "me.toml" else word for word in words]
    context = sit.make_context("sit", given)
    assert context.params["pattern"] == "marlpit" and context.params["body"]


def test_it_names_every_figure() -> None:
    assert {what for what, *_ in rows_of(READING)} | {"not dressed"} <= NAMED and set(HEAD) <= NAMED


def test_it_names_every_key() -> None:
    (first, *_), _ = cases_of(Request("marlpit", Whom(sizes=("M",))), Wording("en", "cm"))
    sitting = Sitting(worn(), READING, telling(READING, by_ease=True))
    other: Case = replace(first, name="S")
    files = sit_files([Sat(first, sitting), Sat(other, Refused(why("why_legs")))], "Marlpit", Wording("en", "cm"))
    data = json.loads(files["sit.json"])
    keys = set(data) | {key for garment in data["garments"] for key in garment}
    assert keys <= NAMED, keys - NAMED
