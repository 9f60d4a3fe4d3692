"""A fabric, from a small TOML file.

    name = "cotton jersey"
    stretch_across = "50 %"
    stretch_down = "25 %"
    recovery = "95 %"
    width = "150 cm"
    shrinkage_across = "3 %"
    shrinkage_down = "6 %"

What a file leaves out is not known: a pattern then keeps its own figure, and nothing is added for shrinkage.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from draft.base.disk import is_there
from draft.base.notes import MANY, Note, Problems, Source, error, nearest, stop_if_errors
from draft.base.plainly import OfCloth, Typed, sentence
from draft.base.record import dataclass
from draft.base.resources import folder
from draft.base.textfile import read_source
from draft.base.toml import place, read_toml
from draft.base.units import Quantity, read_quantity
from draft.base.visible import visible
from draft.fabrics.properties import PROPERTIES, outside_cloth_limits, unknown_property

LINE = 'stretch_across = "50 %"'
SUFFIX = ".toml"
LONGEST_NAME = 60


@dataclass(frozen=True)
class Fabric:
    """A cloth by its name, and what is known of it: shares as numbers, lengths in mm."""

    name: str
    values: Mapping[str, float]

    def get(self, name: str) -> float:
        """A property, or what is usual where it is not known."""
        return self.values.get(name, PROPERTIES[name].usual)

    @property
    def shrinks(self) -> bool:
        """Whether pieces must be cut larger than they are to become."""
        return bool(self.get("shrinkage_across") or self.get("shrinkage_down"))


def find_fabric(named: str) -> Path:
    """The file of a bundled fabric by its name, or any path. Raises `Problems` if there is none."""
    path = Path(named)
    if path.suffix == SUFFIX or is_there(path):
        return path
    bundled = {file.stem: file for file in sorted((folder("pieces") / "fabrics").glob(f"*{SUFFIX}"))}
    if named in bundled:
        return bundled[named]
    hint = nearest(named, bundled) or ("give the path of a .toml file, or one of: " + ", ".join(bundled),)
    raise Problems([error(f"there is no fabric called `{named}`", None, *hint)])


def read_fabric(path: Path) -> Fabric:
    """One fabric. Raises `Problems` with every mistake in the file, or with why it cannot be read."""
    source = read_source(path, "file about a fabric")
    table = read_toml(source, LINE)
    name = table.pop("name", path.stem)
    notes = _name_notes(source, name)
    values: dict[str, float] = {}
    for key, given in table.items():
        if len(notes) >= MANY:
            break
        read = _read(source, key, given)
        if isinstance(read, Note):
            notes.append(read)
        else:
            values[key] = read
    if not table and not notes:
        notes.append(error(f"`{source.name}` says nothing about a fabric", None, f"add lines such as `{LINE}`"))
    stop_if_errors(notes)
    return Fabric(str(name), values)


def _name_notes(source: Source, name: object) -> list[Note]:
    if not isinstance(name, str):
        return [error("the name is not a text in quotes", place(source, "name"))]
    if len(name) > LONGEST_NAME or visible(name) != name:
        fact = f"the fabric's name is longer than {LONGEST_NAME} letters, or holds what cannot be seen"
        return [error(fact, place(source, "name"), "give it a plain, short name")]
    return []


def _read(source: Source, key: str, given: object) -> float | Note:
    span = place(source, key)
    found = PROPERTIES.get(key)
    if found is None:
        return unknown_property(key, span)
    quantity = _quantity(given)
    if quantity is None or quantity.kind is not found.kind:
        plainly = sentence("cloth_unread", property=OfCloth(key), example=Typed(found.example))
        return error(f"`{key}` is not {found.kind.value}", span, f'write `{key} = "{found.example}"`', plainly=plainly)
    return outside_cloth_limits(found, quantity.value, span) or quantity.value


def _quantity(given: object) -> Quantity | None:
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        return None
    try:
        return read_quantity(str(given))
    except (ValueError, OverflowError):
        return None
