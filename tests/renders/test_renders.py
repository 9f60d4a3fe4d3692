"""The committed drawings are what the bundled pattern draws today; `pytest tests/renders --update` rebuilds them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from draft.answers.on_the_shelf import shelf_files
from draft.pack.printed_files import flat_files, svg_files
from tests.asking import bundled, shelf
from tests.rewriting import Rewriting

RENDERS = Path(__file__).parents[2] / "renders"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
LAST_DIGIT = 0.02  # mm: other versions of numpy round the last printed digit another way


@pytest.fixture(scope="module")
def drawn() -> dict[str, str]:
    garment = bundled("marlpit").garment
    files = svg_files(garment) | flat_files(garment)
    kept = {f"marlpit-{Path(name).name}": data.decode() for name, data in files.items()}
    return kept | {"shelf.svg": shelf_files(shelf())["shelf.svg"].decode()}


@pytest.mark.parametrize("name", ["marlpit-M.svg", "marlpit-nest.svg", "marlpit-flat.svg", "shelf.svg"])
def test_render_is_up_to_date(drawn: dict[str, str], name: str, rewrite: Rewriting) -> None:
    path = RENDERS / name
    rewrite(path, drawn[name])
    kept = path.read_text(encoding="utf-8")
    assert NUMBER.sub("n", drawn[name]) == NUMBER.sub("n", kept)
    pairs = zip(NUMBER.findall(drawn[name]), NUMBER.findall(kept), strict=True)
    assert all(abs(float(new) - float(old)) <= LAST_DIGIT for new, old in pairs)
