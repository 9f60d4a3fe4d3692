"""The booklet that goes with a pattern: size, measures, cloth, printing, sewing, words."""

from draft.paper.booklet.about import BookletFacts, ClothNeed, ClothPlan
from draft.paper.booklet.booklet import booklet_pdf

__all__ = ["BookletFacts", "ClothNeed", "ClothPlan", "booklet_pdf"]
