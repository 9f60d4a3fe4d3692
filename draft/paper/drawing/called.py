"""Things called by their names within a sentence, in languages whose articles bend with the noun.

A text of such a language writes `{piece:dem}` where the article stands before the name. Its file has the forms of the
article for the three genders, and the genders of nouns; a noun that is longer has the gender of how it ends.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from draft.base.naming import and_list

GENDERS = ("der", "die", "das")


class Called(str):
    """Names in a list, as `a and b`; formatted with a form of the article, each has its own before it."""

    __slots__ = ("names", "texts")
    names: tuple[str, ...]
    texts: Mapping[str, str]

    def __new__(cls, names: Sequence[str], texts: Mapping[str, str]) -> Called:
        """Some names, and all texts of the language by their keys."""
        made = super().__new__(cls, and_list(names, texts["units.and"]))
        made.names, made.texts = tuple(names), texts
        return made

    def __format__(self, form: str) -> str:
        """The names alone, or each behind the article in a form such as `dem`. Raises KeyError for one that is none."""
        if not form:
            return str(self)
        return and_list([_with_article(name, form, self.texts) for name in self.names], self.texts["units.and"])


def _with_article(name: str, form: str, texts: Mapping[str, str]) -> str:
    """`dem Bund`; of what has no known gender, `dem Teil „Bund“`."""
    forms = dict(zip(GENDERS, texts[f"articles.{form}"].split(", "), strict=True))
    gender = _gender(name, texts)
    return f"{forms[gender]} {name}" if gender else f"{forms['das']} {texts['articles.part'].format(name=name)}"


def _gender(name: str, texts: Mapping[str, str]) -> str:
    """The article of a noun by its longest known end, what is said in brackets behind it left out; or nothing."""
    noun = name.partition(" (")[0].lower()
    known = [noun[at:] for at in range(len(noun)) if f"genders.{noun[at:]}" in texts] if " " not in noun else []
    return texts[f"genders.{known[0]}"] if known else ""
