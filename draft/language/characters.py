"""Characters that look right and are not the language's: typed by a word processor, or copied from a page."""

from __future__ import annotations

import unicodedata

from draft.base.notes import Note, Span, error

_INSTEAD = {
    **dict.fromkeys("×∙·", "*"),
    **dict.fromkeys("−–—‐‑", "-"),
    **dict.fromkeys("“”„«»″", '"'),
    **dict.fromkeys("[{", "("),
    **dict.fromkeys("]}", ")"),
    "÷": "/",
    "&": "+",
}
_SPACES = "a space of another sort stands here", "type a plain space in its place"
_UNSEEN = "a character stands here that cannot be seen", "delete it, and type the words beside it again"


def odd_character(span: Span) -> Note:
    """The note for a character that the language does not use, or a word that has one."""
    text = span.text
    odd = next((letter for letter in text if not (letter.isascii() and (letter.isalnum() or letter == "_"))), text[0])
    category = unicodedata.category(odd)
    if category[0] == "Z":
        return error(_SPACES[0], span, _SPACES[1])
    if category[0] == "C":
        return error(_UNSEEN[0], span, _UNSEEN[1])
    if category[0] in "LM":
        fact = f"`{text}` has the letter `{odd}`, which no name can have"
        return error(fact, span, "write names with the letters a to z, digits and `_`")
    return error(f"`{text}` cannot be read here", span, _fix(odd))


def _fix(odd: str) -> str:
    plain = unicodedata.normalize("NFKC", odd).replace("\u2044", "/")  # a vulgar fraction has a slash of its own
    if odd in _INSTEAD or (plain != odd and plain.isascii()):
        return f"try `{_INSTEAD.get(odd, plain)}`"
    if odd in "<>":
        return f"to compare two values, write `at {'least' if odd == '>' else 'most'}`"
    if odd == "'":
        return 'put a text into `"..."`'
    if odd == ";":
        return "begin a new line"
    return "take it out, or put it after a `#` as a comment"
