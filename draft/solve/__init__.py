"""Plan x bodies: every step for all bodies in one evaluation, and an outcome that says what was met and what not.

Given: a `Plan` and `Bodies`. Gives: an `Outcome`: values by full name, what the solver chose, what failed and for whom,
how every relation stands. One unknown is bracketed (`bracket.py`), several are settled together (`system.py`),
nearest to what is wanted (`sliding.py`). It must not know pieces, the text, or what a value is for.
"""

from draft.solve.evaluate import evaluate
from draft.solve.outcome import MET, Outcome, Standing
from draft.solve.steps import find_value

__all__ = ["MET", "Outcome", "Standing", "evaluate", "find_value"]
