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
    """`dem Bund`, `dem linken Beleg`; of what has no known gender, `dem Teil „Bund“`.

    A form may say behind a plus what the noun ends with, as `des +s`.
    """
    forms = dict(zip(GENDERS, texts[f"articles.{form}"].split(", "), strict=True))
    adjective, noun = _parted(name)
    gender = _gender(noun, texts)
    bent = _bent(adjective, form, gender, texts) if adjective and gender else ""
    article, _, ending = forms[gender or "das"].partition(" +")
    if gender and bool(adjective) == bool(bent) and not (ending and " " in noun):
        return " ".join(filter(None, (article, bent, _ending_with(noun, ending))))
    part, _, rest = texts["articles.part"].format(name=name).partition(" ")
    return f"{forms['das'].partition(' +')[0]} {_ending_with(part, forms['das'].partition(' +')[2])} {rest}"


def _parted(name: str) -> tuple[str, str]:
    """An adjective and the noun that it stands before; a noun has none where nothing in capitals follows."""
    first, _, behind = name.partition(" ")
    return (first, behind) if behind[:1].isupper() and first[:1].islower() else ("", name)


def _bent(adjective: str, form: str, gender: str, texts: Mapping[str, str]) -> str:
    """An adjective as it is behind an article; nothing where it does not end as one by itself does."""
    if "articles.adjective" not in texts:
        return ""
    alone = dict(zip(GENDERS, texts["articles.adjective"].split(", "), strict=True))[gender]
    behind = texts.get(f"articles.adjective_{form}", texts["articles.adjective_else"])
    ending = dict(zip(GENDERS, behind.split(", "), strict=True))[gender]
    return adjective.removesuffix(alone) + ending if adjective.endswith(alone) else ""


def _ending_with(noun: str, ending: str) -> str:
    """A noun with its ending, before which a hissing sound asks for an e."""
    return noun + ("e" if ending == "s" and noun.endswith(("s", "ß", "x", "z")) else "") + ending


def _gender(name: str, texts: Mapping[str, str]) -> str:
    """The article of a noun by its longest known end, what is said behind it left out; or nothing."""
    noun = name.partition(" ")[0].lower()
    known = [noun[at:] for at in range(len(noun)) if f"genders.{noun[at:]}" in texts]
    return texts[f"genders.{known[0]}"] if known else ""
