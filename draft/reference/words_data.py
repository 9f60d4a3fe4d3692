"""The words of the language as data."""

from __future__ import annotations

from draft.base.as_data import Data
from draft.base.units import UNITS
from draft.bodies.measures import MEASURES
from draft.fabrics.properties import PROPERTIES
from draft.reference.entries import ReferenceEntry, entries, entries_about


def words_data(word: str = "") -> Data:
    """All forms and words, or those about one."""
    if word in MEASURES or word in PROPERTIES:
        return {"words": [], "what": "measure" if word in MEASURES else "property of cloth", "how": _how(word)}
    if word in UNITS:
        return {"words": [], "what": "unit", "of": UNITS[word][0].value}
    first, other = entries_about(word) if word else (entries(), ())
    said: Data = {"words": [_entry(one) for one in first]}
    return said | ({"also_in": [one.name for one in other]} if word else {"units": list(UNITS)})


def _how(word: str) -> str:
    return MEASURES[word].how if word in MEASURES else PROPERTIES[word].how


def _entry(one: ReferenceEntry) -> Data:
    facts = {"takes": one.takes or None, "gives": one.gives or None, "fails": one.fails or None}
    shown = {"form": one.form, "words": one.words, "example": one.example, "inside": one.inside or None}
    return {"name": one.name, "group": one.group, **shown, **facts}
