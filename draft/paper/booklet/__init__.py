"""The booklet that goes with a pattern: one file a section, from choosing a size to the words of the trade.

Given: `BookletFacts`, plain records of what was drafted, how its pages lie, how much cloth it takes and what it links
to. Gives: a document in one language: headings and small drawings beside what is said. It must not know how lays are
found, how pages are packed, or what a person typed.
"""

from draft.paper.booklet.booklet import book_of, booklet_pdf
from draft.paper.booklet.booklet_html import booklet_html
from draft.paper.booklet.facts import BookletFacts, ClothAmounts, ClothPlan, Matching, TooWide
from draft.paper.booklet.imprint_of import imprint_of
from draft.paper.booklet.page_format import LARGE
from draft.paper.booklet.studio_face import face_of

__all__ = [
    "LARGE",
    "BookletFacts",
    "ClothAmounts",
    "ClothPlan",
    "Matching",
    "TooWide",
    "book_of",
    "booklet_html",
    "booklet_pdf",
    "face_of",
    "imprint_of",
]
