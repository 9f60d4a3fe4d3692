"""Which languages there are words in: a file each in `languages/`, all of the same keys; and a pattern's own words."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Literal, TypeAlias, get_args

from draft.base.disk import is_file
from draft.base.notes import Problems, error
from draft.base.textfile import read_source
from draft.base.toml import place, read_toml

Units: TypeAlias = Literal["both", "in", "cm"]

_FOLDER = Path(__file__).parent.parent / "languages"
SENTENCE, TEXT = 300, 2000
"""Letters that the translation of a sentence, or of a longer text, may have."""


def languages() -> list[str]:
    """The languages that there are files for, by their codes."""
    return sorted(file.stem for file in _FOLDER.glob("*.toml"))


def stop_unless_spoken(language: str) -> None:
    """Raises Problems for a language that there is no file for."""
    if language not in languages():
        choose = f"choose from {', '.join(languages())}"
        raise Problems([error(f"there are no words in the language `{language}`", None, choose)])


def usual_units(language: str) -> Units:
    """The units that whoever reads a language measures with. Raises Problems if there is no file for it."""
    stop_unless_spoken(language)
    usual = texts_of(language)["units.usual"]
    return next(units for units in get_args(Units) if units == usual)


@cache
def texts_of(language: str) -> Mapping[str, str]:
    """All texts of a language by `section.key`."""
    tree = tomllib.loads((_FOLDER / f"{language}.toml").read_text("utf-8"))
    return dict(_flat(tree, ""))


def _flat(tree: Mapping[str, object], before: str) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for name, value in tree.items():
        found += _flat(value, f"{before}{name}.") if isinstance(value, dict) else [(before + name, str(value))]
    return found


def own_words(pattern: Path, language: str) -> Mapping[str, str]:
    """What a pattern's designer says in another language: the file `NAME.CODE.toml` beside the pattern, if it is there.

    Each line has a text of the pattern and its translation. Raises Problems if the file cannot be read,
    or for a language that there are no words in.
    """
    stop_unless_spoken(language)
    file = pattern.with_name(f"{pattern.stem}.{language}.toml")
    if not is_file(file):
        return {}
    source = read_source(file, "file of translations")
    tree = read_toml(source, '"Marlpit top" = "Marlpit-Shirt"')
    wrong = [key for key, value in tree.items() if not isinstance(value, str)]
    if wrong:
        raise Problems([error(f"`{wrong[0][:60]}` is not translated by a text", place(source, wrong[0]))])
    said = {key: str(value) for key, value in tree.items()}
    long = next((key for key, value in said.items() if len(value) > (TEXT if len(key) > _TERSE else SENTENCE)), None)
    if long is not None:
        fact = f"this translation has {len(said[long])} letters, more than can be printed"
        raise Problems([error(fact, place(source, long), "say it in fewer words")])
    return said


_TERSE = SENTENCE * 2 // 3
"""A text of more letters may be longer than a sentence in another language, though it is not in its own."""
