"""Whether lengths of cloth are those before washing or after, said beside every amount; how shrinkage is measured."""

from __future__ import annotations

from draft.fabrics.properties import PROPERTIES

MEASURED = f"{PROPERTIES['shrinkage_across'].how}; the same along its length"


def washing_words(unwashed: bool, washed: bool, across: float, down: float) -> str:
    """What the amounts and lengths mean; `across` and `down` are the shares that washing takes from the cloth."""
    if unwashed:
        return "cut before washing: the pieces hold what it takes, and all lengths are of cloth as bought"
    if washed:
        return (
            "all lengths are of cloth that has been washed: nothing more is taken from it, and as much more is bought"
        )
    if across or down:
        return "all lengths are of cloth as bought, before washing; wash it, then cut"
    how = f"how that is measured for `--shrink-across` and `--shrink-down`: {MEASURED}"
    return f"nothing is taken off for washing: wash the cloth first and measure it then, or buy more\n  {how}"
