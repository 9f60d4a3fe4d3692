"""The structure of a piece file, one record a form.

The words that give a value or a point have records of their own in `draft/words`; together the two are the reference
of the language.
"""

from draft.language.forms import blocks, choices, in_pattern, in_piece
from draft.language.forms.form import Form

FORMS: dict[str, tuple[Form, ...]] = {
    "blocks": blocks.BLOCKS,
    "the head of a pattern": blocks.HEAD,
    "choices": choices.CHOICES,
    "pieces and templates": in_piece.PIECES,
    "moves": in_piece.MOVES,
    "edges": in_piece.EDGES,
    "joins": in_pattern.JOINS,
    "relations and measurements": in_pattern.RELATIONS,
    "values": in_pattern.VALUES,
    "notions": blocks.NOTIONS,
    "the booklet": blocks.BOOKLET,
}
"""Every form, grouped as the reference shows them."""
