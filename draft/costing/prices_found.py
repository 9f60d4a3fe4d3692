"""Which prices are meant: those of a file that is named, or of the studio beside a pattern."""

from __future__ import annotations

from pathlib import Path

from draft.base.notes import Problems, error
from draft.studio.prices import NO_PRICES, Prices
from draft.studio.studio import FILE, Studio
from draft.studio.studio_file import read_studio

EXAMPLE = 'write `[prices]`, `currency = "EUR"`, and below `[prices.cloth]` a line such as `cloth = 12.50`, a metre'


def prices_found(file: Path | None, studio: Studio | None) -> Prices:
    """The prices of a studio's file at a path, or else of the studio of the pattern.

    Raises `Problems` with the mistakes of the file, and where there are no prices.
    """
    found = read_studio(file) if file else studio
    if found is None:
        fact = f"there are no prices: no `{FILE}` lies beside the pattern"
        raise Problems([error(fact, None, "name one with `--prices FILE`", EXAMPLE)])
    if found.prices == NO_PRICES:
        raise Problems([error(f"`{found.file.name}` says no prices", None, EXAMPLE)])
    return found.prices
