"""Plan x bodies: every step for all bodies in one evaluation, and an outcome that says what was met and what not."""

from draft.solve.evaluate import evaluate
from draft.solve.outcome import MET, Outcome, Standing
from draft.solve.steps import find_value

__all__ = ["MET", "Outcome", "Standing", "evaluate", "find_value"]
