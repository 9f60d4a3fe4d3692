"""The structure of a piece file, one record a form.

The words that give a value or a point have records of their own in `draft/words`; together the two are the reference
of the language.
"""

from draft.language.forms import blocks, in_pattern, in_piece
from draft.language.forms.form import Form

FORMS: dict[str, tuple[Form, ...]] = {
    "blocks": blocks.BLOCKS,
    "the head of a pattern": blocks.HEAD,
    "pieces and templates": in_piece.PIECES,
    "edges": in_piece.EDGES,
    "joins": in_pattern.JOINS,
    "relations and measurements": in_pattern.RELATIONS,
    "values": in_pattern.VALUES,
    "the booklet": blocks.BOOKLET,
}
"""Every form, grouped as the reference shows them."""

_ABOVE = {
    "": (),
    "pattern": ("pattern example",),
    "piece": ("piece example",),
    "template": ("template example",),
    "outline": ("piece example", "    outline"),
}


def whole(form: Form) -> str:
    """The example as a text that can be read, in the block that it stands in."""
    above = _ABOVE.get(form.inside, (form.inside,))
    indent = " " * 4 * len(above)
    rows = [f"{indent}{row}" if row else "" for row in form.example.split("\n")]
    return "\n".join([*above, *rows]) + "\n"
