"""Left and right measured apart: what a file gives for one side, and the two bodies that are drafted of it.

    [measures]
    shoulder_slope = "21 deg"
    hip_girth = "104 cm"

    [measures.left]
    shoulder_slope = "24 deg"
    hip_girth = "53 cm"

What goes across the middle of the body is measured on one side from the middle in front to the middle behind, and the
other side has the rest. Anything else holds for its side, and the other has what stands under `[measures]`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from draft.base.notes import Note, Source, error
from draft.base.toml import place
from draft.base.units import Kind, in_words
from draft.bodies.bodies import Bodies, outside_body_limits
from draft.bodies.own_measure import Known
from draft.bodies.person_measure import read_measure

SIDES = ("left", "right")

ACROSS = frozenset({
    *("neck_girth", "neck_base_girth", "across_back_shoulder_width", "shoulder_girth", "high_bust_girth", "bust_girth"),
    *("under_bust_girth", "bust_point_distance", "across_front_width", "across_back_width"),
    *("waist_girth", "top_hip_girth", "hip_girth", "front_waist_width", "front_hip_width"),
})  # fmt: skip
"""Measures across the middle of the body: a side has half of them."""

OF_BOTH = frozenset({"stature", "head_girth", "crotch_length", "trunk_girth", "back_waist_length"})
"""Measures that no side has to itself."""

AGREE = 10.0
"""mm by which two halves and the whole may differ: three tapes do."""

Sides = Mapping[str, Mapping[str, float]]


def read_sides(
    source: Source, tables: Mapping[str, object], whole: dict[str, float], unit: str | None, person: str, known: Known
) -> tuple[Sides, list[Note]]:
    """What each side has, as two bodies whole, and the faults in it; `whole` is given what it lacks of the two."""
    taken, notes = _taken(source, tables, unit, person, known)
    if notes:
        return {}, notes
    sides: dict[str, dict[str, float]] = {side: {} for side in SIDES}
    for key in dict.fromkeys(key for table in taken.values() for key in table):
        given = [taken.get(side, {}).get(key) for side in SIDES]
        both = (_halves if key in ACROSS else _each)(given, whole.get(key))
        if both is None:
            notes.append(_other_missing(source, taken, key))
            continue
        if key in ACROSS:
            notes += _unlikely(source, key, both, whole.get(key), known)[:1]
        for side, value in zip(SIDES, both, strict=True):
            sides[side][key] = value
        whole[key] = sum(both) / 2
    return sides if sides[SIDES[0]] else {}, notes


def _taken(
    source: Source, tables: Mapping[str, object], unit: str | None, person: str, known: Known
) -> tuple[dict[str, dict[str, float]], list[Note]]:
    """What was written of each side, and the faults in it."""
    notes, taken = list[Note](), dict[str, dict[str, float]]()
    for name, table in tables.items():
        if not isinstance(table, dict) or not table:
            hint = f'below `[measures.{name}]` write lines such as `shoulder_slope = "24 deg"`'
            notes.append(error(f"nothing is measured on the {name}", place(source, f"measures.{name}"), hint))
            continue
        read = {key: _read(source, name, key, given, unit, person, known) for key, given in table.items()}
        notes += [one for one in read.values() if isinstance(one, Note)]
        taken[name] = {key: one for key, one in read.items() if not isinstance(one, Note)}
    return taken, notes


def _read(
    source: Source, side: str, key: str, given: object, unit: str | None, person: str, known: Known
) -> float | Note:
    span = place(source, key, f"measures.{side}")
    if key in OF_BOTH:
        hint = "write it once, under `[measures]`"
        return error(f"`{key}` is measured of the whole body, not of one side", span, hint)
    read = read_measure(source, key, given, unit, person, known, span=span, times=2.0 if key in ACROSS else 1.0)
    if isinstance(read, Note) and key in ACROSS and key in known:
        half = "on one side it is measured from the middle in front to the middle behind"
        return replace(read, hints=(half, *read.hints))
    return read


def _halves(given: Sequence[float | None], whole: float | None) -> tuple[float, float] | None:
    """A girth as it would be were both sides alike: twice the half; who lacks one has the rest."""
    left, right = given
    if left is None and right is not None and whole is not None:
        return 2 * whole - right, right
    if right is None and left is not None and whole is not None:
        return left, 2 * whole - left
    return None if left is None or right is None else (left, right)


def _each(given: Sequence[float | None], whole: float | None) -> tuple[float, float] | None:
    left, right = (whole if one is None else one for one in given)
    return None if left is None or right is None else (left, right)


def _other_missing(source: Source, taken: Mapping[str, Mapping[str, float]], key: str) -> Note:
    there = next(side for side, table in taken.items() if key in table)
    other = SIDES[1 - SIDES.index(there)]
    fix = f"give it under `[measures.{other}]` too, or once for the body under `[measures]`"
    return error(f"`{key}` is given for the {there} alone", place(source, key, f"measures.{there}"), fix)


MOST = 0.15
"""By how much of a girth a half may be larger than the half of it: of no body that walks more (common sense)."""


def _unlikely(source: Source, key: str, both: tuple[float, float], whole: float | None, known: Known) -> list[Note]:
    """What cannot be of two halves: that they do not make the whole, or that one has far too much of it."""
    again = "a half is measured from the middle in front to the middle behind"
    total = sum(both) / 2
    if whole is not None and abs(total - whole) > AGREE:
        come_to, once = (in_words(one, Kind.LENGTH) for one in (total, whole))
        said = f"both halves of `{key}` come to {come_to}, the whole is {once}"
        return [error(said, place(source, key), f"measure again: {again}")]
    if abs(both[0] / total - 1) > MOST:
        fact = f"one half of `{key}` is {in_words(max(both) / 2, Kind.LENGTH)} of {in_words(total, Kind.LENGTH)}"
        return [error(fact, place(source, key), again)]
    return [note for one in both if (note := outside_body_limits(known[key], one, "one side", place(source, key)))]


def two_bodies(person: Bodies, but: Sequence[str] = ()) -> Bodies | None:
    """Two bodies, `left` and `right`, each with both sides as that one of this person; None where they are alike.

    Measures that were not taken, and follow from others, are left out where `but` names them.
    """
    if not person.sides or len(person) != 1:
        return None
    values = {name: np.repeat(found, 2) for name, found in person.values.items() if name not in but}
    for name in [name for name in person.sides["left"] if name in values]:
        values[name] = np.array([person.sides[side][name] for side in SIDES])
    alike = all(np.array_equal(found[:1], found[1:]) for found in values.values())
    return None if alike else Bodies(SIDES, values, wearer=person.wearer)
