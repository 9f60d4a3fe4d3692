"""Words of the language that no name may be."""

RESERVED = frozenset(["across", "down", "inward", "onto", "otherwise", "reversed", "then", "to", "up"])
"""Words that stand where a name may stand too, with the same behind them, so that no place tells the two apart."""
