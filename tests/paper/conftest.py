"""Garments that the tests of this folder draw."""

from __future__ import annotations

import pytest

from draft.garment.garment import Garment
from tests.paper.made_up import make_garment
from tests.paper.printed import pdf_files


@pytest.fixture(scope="session")
def garment() -> Garment:
    """Seven sizes."""
    return make_garment()


@pytest.fixture(scope="session")
def one() -> Garment:
    """One person."""
    return make_garment(1, sizes=("Ines",))


@pytest.fixture(scope="session")
def pdfs(garment: Garment) -> dict[str, bytes]:
    """The printed patterns of all sizes."""
    return pdf_files(garment)
