"""The booklet that goes with a pattern: size, measures, cloth, printing, sewing, words."""

from draft.paper.booklet.booklet import booklet_pdf
from draft.paper.booklet.facts import BookletFacts, ClothAmounts, ClothPlan

__all__ = ["BookletFacts", "ClothAmounts", "ClothPlan", "booklet_pdf"]
