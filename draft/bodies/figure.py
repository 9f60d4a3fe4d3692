"""A neutral figure to show on where a tape goes: front and back share one outline.

Eight heads tall, as figures are drawn (from memory); one unit is a hundredth and sixtieth of the stature, x runs from
the middle to the figure's side and y down from the crown. Nobody's body: it only has to be recognised.
"""

from __future__ import annotations

from typing import NamedTuple

Points = tuple[tuple[float, float], ...]


class Half(NamedTuple):
    """The right half of the outline as curves through points: each part a line of its own."""

    head: Points
    neck_and_arm: Points
    inner_arm: Points
    side: Points
    inner_leg: Points


HALF = Half(
    head=((0, 0), (5.4, 2.6), (7.0, 9), (5.6, 16), (0, 20.6)),
    neck_and_arm=(
        *((4.0, 18.4), (3.9, 23), (5.0, 26.4), (10, 28.6), (15.6, 31), (18.4, 36)),
        *((19.9, 47), (21.6, 59), (23.6, 66), (24.9, 75), (25.6, 81), (27.2, 87), (27, 93), (25, 97)),
    ),
    inner_arm=((25, 97), (23.6, 92), (22.9, 86.5), (22.3, 81), (20.2, 71), (17.7, 60), (16, 50), (14.8, 42.5)),
    side=(
        *((14.8, 42.5), (15.2, 48), (14.6, 53), (12, 60), (11.3, 65), (13.6, 73), (16.6, 84), (16.4, 95)),
        *((14.3, 109), (11.4, 120), (11.9, 131), (9.7, 144), (8.1, 152), (9.4, 157.5), (9, 160), (4.4, 160)),
    ),
    inner_leg=((4.4, 160), (5, 152), (4.3, 140), (4.2, 131), (4.3, 120), (2.6, 106), (0.7, 91.5), (0, 91)),
)

LEVELS = {
    "nape": 26.0,
    "side_neck": 25.6,
    "shoulder": 31.0,
    "armpit": 42.5,
    "bust": 48.0,
    "waist": 65.0,
    "hip": 84.0,
}
"""Where the body's landmarks lie on the figure."""
