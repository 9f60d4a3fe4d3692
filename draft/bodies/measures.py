"""The body measures that the engine knows: their names, how they are taken, which figures can be true.

Names and clauses follow ISO 8559-1:2017 (size designation of clothes, anthropometric definitions). A clause
is given only where it was read. `armpit_depth` and `hip_depth` are terms of the trade.

The limits are wide enough for adults and teenagers of any build, and narrow enough that a figure in inches
taken for centimetres, or the other way round, falls outside. They refuse slips of the pen; they judge no body.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from difflib import SequenceMatcher

from draft.base.naming import shortened
from draft.base.notes import Note, Span, error, nearest
from draft.base.record import dataclass
from draft.base.units import Kind


@dataclass(frozen=True)
class BodyMeasure:
    """One body measure; values from `low` to `high` (mm or rad) are plausible."""

    name: str
    kind: Kind
    clause: str
    """Clause of ISO 8559-1:2017, or an empty text where it was not read."""
    how: str
    """How to take it, as one instruction."""
    low: float
    high: float

    @property
    def unit(self) -> float:
        """What formulas and charts give it in, a centimetre or a degree: in mm or rad."""
        return math.radians(1.0) if self.kind is Kind.ANGLE else 10.0

    @property
    def example(self) -> str:
        """A plausible figure as a person writes it: the middle (geometric, limits being ratios apart)."""
        middle = math.sqrt(self.low * self.high)
        return f"{math.degrees(middle):.0f} deg" if self.kind is Kind.ANGLE else f"{middle / 10:.0f} cm"


def _length(name: str, clause: str, low_cm: float, high_cm: float, how: str) -> BodyMeasure:
    return BodyMeasure(name, Kind.LENGTH, clause, how, low_cm * 10, high_cm * 10)


def _angle(name: str, low_deg: float, high_deg: float, how: str) -> BodyMeasure:
    return BodyMeasure(name, Kind.ANGLE, "", how, math.radians(low_deg), math.radians(high_deg))


_ALL = (
    _length("stature", "", 120, 220, "from the floor to the crown, standing barefoot against a wall"),
    _length("head_girth", "", 45, 70, "around the head above the ears, over the forehead"),
    _length("neck_girth", "5.3.2", 24, 60, "around the middle of the neck, square to it"),
    _length("neck_base_girth", "5.3.3", 26, 65, "around the foot of the neck, over the back neck bone"),
    _length("shoulder_length", "", 8, 20, "from the side neck point to the shoulder point"),
    _angle("shoulder_slope", 8, 45, "how far the shoulder falls below level, from neck to shoulder point"),
    _length("across_back_shoulder_width", "5.4.3", 24, 60, "across the back between the shoulder points"),
    _length("shoulder_girth", "", 72, 190, "around shoulders and arms at their widest, the arms hanging, level"),
    _length(
        "back_neck_point_to_wrist",
        "5.4.17",
        55,
        115,
        "from the back neck bone over shoulder and bent elbow to the wrist",
    ),
    _length("high_bust_girth", "", 58, 165, "around the chest high under the arms, above the fullness of the bust"),
    _length("bust_girth", "5.3.4", 60, 180, "around the fullest part of the bust, level"),
    _length("under_bust_girth", "5.3.8", 52, 160, "around the ribs just under the bust, level"),
    _length("armpit_depth", "", 10, 30, "from the back neck bone down to a strip held under both arms"),
    _length("bust_depth", "", 12, 45, "from the level of the back neck bone straight down to that of the bust point"),
    _length("back_waist_length", "5.4.5", 28, 65, "from the back neck bone down the back to the waist"),
    _length("neck_to_bust_point", "", 17, 45, "from the side neck point down to the bust point"),
    _length("bust_point_distance", "", 12, 32, "across the front between the bust points, the tape taut"),
    _length("front_waist_length", "", 30, 70, "from the side neck point over the bust point down to the waist"),
    _length(
        "across_front_width", "", 22, 52, "across the chest between the fronts of the armholes, at half their height"
    ),
    _length("across_back_width", "", 22, 54, "across the back between the folds at the armpits, the arms hanging"),
    _length("waist_girth", "5.3.10", 50, 190, "around the waist where the body bends to the side, level"),
    _length(
        "front_waist_width", "", 22, 105, "across the front at the waist, the tape from one side line to the other"
    ),
    _length("hip_depth", "", 12, 35, "at the side, from the waist down to the fullest of the seat"),
    _length("front_hip_depth", "", 10, 42, "down the front at its middle, from the waist to the level of the hip"),
    _length("back_hip_depth", "", 10, 38, "down the back at its middle, from the waist to the level of the hip"),
    _length("top_hip_girth", "5.3.12", 58, 190, "around the tops of the hip bones, level"),
    _length("hip_girth", "5.3.13", 64, 200, "around the fullest part of the seat, level"),
    _length(
        "front_hip_width", "", 28, 105, "across the front at the level of the hip, from one side line to the other"
    ),
    _length("crotch_depth", "", 14, 45, "at the side, from the level of the waist straight down to that of the crotch"),
    _length("crotch_length", "", 45, 110, "from the waist in front through the legs to the waist at the back"),
    _length(
        "trunk_girth", "", 115, 230, "from the shoulder down the front, through the legs and up the back to it again"
    ),
    _length("waist_height", "", 75, 135, "from the floor straight up to the level of the waist, standing barefoot"),
    _length("inside_leg_length", "", 55, 105, "from the crotch straight down the inside of the leg to the floor"),
    _length("knee_height", "", 32, 65, "from the floor straight up to the middle of the kneecap"),
    _length("thigh_girth", "", 38, 110, "around the thigh at its thickest, close below the seat, level"),
    _length("knee_girth", "", 25, 70, "around the knee over the middle of the kneecap, the leg straight"),
    _length("calf_girth", "", 24, 65, "around the calf at its thickest, level"),
    _length("ankle_girth", "", 15, 40, "around the leg where it is slimmest, above the ankle bones"),
    _length("heel_girth", "", 22, 50, "around heel and instep, where a trouser leg must pass"),
    _length("upper_arm_girth", "5.3.16", 17, 60, "around the upper arm at its thickest, hanging relaxed"),
    _length("elbow_girth", "", 15, 50, "around the elbow, the arm hanging relaxed"),
    _length("forearm_girth", "", 15, 50, "around the forearm at its thickest, a hand below the elbow"),
    _length("wrist_girth", "5.3.19", 11, 26, "around the wrist, over the wrist bones"),
    _length("hand_girth", "", 13, 30, "around the knuckles of the flat hand, without the thumb"),
    _length("outer_arm_length", "5.7.8", 38, 85, "from the shoulder point over the bent elbow to the wrist"),
)

MEASURES: dict[str, BodyMeasure] = {measure.name: measure for measure in _ALL}
"""All measures by name, in the order in which a person is measured."""


def unknown_measure(name: str, span: Span | None = None, known: Mapping[str, BodyMeasure] = MEASURES) -> Note:
    """The note for a word that should be one of the measures `known` and is none, with the nearest one that is."""
    word = _ROUND.sub("_girth", re.sub(r"[\s-]+", "_", name.strip().lower())[:80])
    other = _OTHER_NAMES.get(word.removesuffix("_girth"), "")
    meant = next((w for w in (word, f"{word.rstrip('s')}_girth", other) if w in known), None)
    hints = (f"try `{meant}`",) if meant else nearest(word, _of_like_places(word, known))
    return error(f"{shortened(name)} is not a body measure", span, *hints)


_ROUND = re.compile("_(circumference|circ|round)$")
_OTHER_NAMES = {
    "underarm_depth": "armpit_depth",
    "chest": "bust_girth",
    "seat": "hip_girth",
    "bicep": "upper_arm_girth",
    "biceps": "upper_arm_girth",
    "inseam": "inside_leg_length",
    "inside_leg": "inside_leg_length",
    "rise": "crotch_depth",
    "body_rise": "crotch_depth",
    "crotch": "crotch_length",
    "total_crotch_length": "crotch_length",
    "nape_to_waist": "back_waist_length",
    "back_length": "back_waist_length",
    "height": "stature",
    "hip_height": "hip_depth",
    "bust_span": "bust_point_distance",
    "bust_separation": "bust_point_distance",
    "across_shoulders": "across_back_shoulder_width",
    "back_width": "across_back_width",
    "front_width": "across_front_width",
    "front_hip_arc": "front_hip_width",
    "front_waist_arc": "front_waist_width",
    "belly": "front_waist_width",
}
"""What others call a measure."""
_LIKE = 0.7


def _of_like_places(word: str, known: Iterable[str]) -> Iterator[str]:
    """Those measures that are no other place's: a wrist is no waist, however alike `_girth` makes them."""
    place, _, sort = word.rpartition("_")
    for name in known:
        other, _, its_sort = name.rpartition("_")
        if sort != its_sort or not place or SequenceMatcher(None, place, other).ratio() >= _LIKE:
            yield name
