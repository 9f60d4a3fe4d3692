"""The booklet that goes with a pattern: one file a section, from choosing a size to the words of the trade.

Given: `BookletFacts`, plain records of what was drafted, how its pages lie, how much cloth it takes and what it links
to. Gives: a document in one language: headings and small drawings beside what is said. It must not know how lays are
found, how pages are packed, or what a person typed.
"""

from draft.paper.booklet.booklet import booklet_pdf
from draft.paper.booklet.facts import BookletFacts, ClothAmounts, ClothPlan

__all__ = ["BookletFacts", "ClothAmounts", "ClothPlan", "booklet_pdf"]
