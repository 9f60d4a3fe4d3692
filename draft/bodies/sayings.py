"""What people say of a figure who have no tape, and by how much it moves what would be estimated of them.

Who calls her shoulders sloping is taken to be among the third that slope most: a normal spread lies there 1.09 standard
deviations beside its middle, and 0.53 of one about that. Who says `very` is taken to be among the tenth: 1.75 and 0.41.
So a saying moves an estimate by 1.09 times `sd`, and takes away most of the doubt that `sd` is part of.
"""

from __future__ import annotations

from draft.base.record import dataclass

THIRD, TENTH = (1.09, 0.53), (1.75, 0.41)
"""Where the outermost third and tenth of a normal spread lie, and how far they spread: in standard deviations."""

CUP = 2.5
"""cm from the high bust to the bust for each cup (from memory, of many charts); a cup is read to within one."""

CUPS = {"aa": 0, "a": 1, "b": 2, "c": 3, "d": 4, "dd": 5, "e": 5, "f": 6}
DRAFTED_CUP = CUPS["b"]
"""The cup of the bundled charts: the bust is 5 cm more than the high bust."""


@dataclass(frozen=True)
class Move:
    """A measure moved: `sd` is what people spread by in it of this cause alone, cm or degrees; negative for less."""

    measure: str
    sd: float


@dataclass(frozen=True)
class Saying:
    """One saying: what is seen of the figure, which measures it moves, and where the figures are from."""

    words: str
    group: str
    """Of one group only one can be said of a figure."""
    seen: str
    moves: tuple[Move, ...]
    source: str


_SURVEY = "996 women (ANSUR II, 2012)"
_RESIDUAL = f"what {_SURVEY} lie beside the regression"
_CUP = "2.5 cm a cup (from memory)"
_POSTURE = f"what the back's length beside its height does to back and front, {_SURVEY}"


def _pair(group: str, source: str, more: tuple[str, str], less: tuple[str, str], *moves: Move) -> tuple[Saying, Saying]:
    """A saying for more of the measures, and one for less of them."""
    turned = tuple(Move(move.measure, -move.sd) for move in moves)
    return Saying(more[0], group, more[1], moves, source), Saying(less[0], group, less[1], turned, source)


_ALL = (
    *_pair(
        "slope",
        f"neck and shoulder heights, {_SURVEY}",
        ("sloping shoulders", "the shoulder falls steeply: cloth folds aslant from the neck to the armhole"),
        ("square shoulders", "the shoulder is nearly level: cloth folds across below the back of the neck"),
        Move("shoulder_slope", 5.6),
    ),
    *_pair(
        "shoulder",
        _RESIDUAL,
        ("broad shoulders", "the armhole seam sits inward of the shoulder point and pulls"),
        ("narrow shoulders", "the armhole seam falls down the arm"),
        Move("shoulder_length", 0.96),
    ),
    *_pair(
        "posture",
        _POSTURE,
        ("rounded back", "the back is long and curved: a top rides up behind and gapes at the neck"),
        ("sway back", "the back is hollow above the seat: cloth lies there in folds across"),
        Move("back_waist_length", 0.88),
        Move("front_waist_length", -0.27),
    ),
    *_pair(
        "back",
        _RESIDUAL,
        ("broad back", "cloth strains across the shoulder blades"),
        ("narrow back", "cloth stands loose between the armholes behind"),
        Move("across_back_width", 2.2),
    ),
    *_pair(
        "chest",
        f"taken to spread as the back does: {_RESIDUAL}",
        ("broad chest", "cloth strains across the front, above the bust"),
        ("hollow chest", "cloth stands loose in front, above the bust"),
        Move("across_front_width", 2.2),
    ),
    Saying(
        "forward shoulders",
        "forward",
        "the shoulders lie towards the front: it is narrow, and the back broad",
        (Move("across_back_width", 1.1), Move("across_front_width", -1.1)),
        "half of what backs spread by (from memory)",
    ),
    *_pair(
        "waist",
        _RESIDUAL,
        ("long waist", "a dress's waist seam lies above the waist"),
        ("short waist", "a dress's waist seam lies below the waist"),
        Move("back_waist_length", 2.0),
        Move("front_waist_length", 2.0),
    ),
    *_pair(
        "bust_height",
        _RESIDUAL,
        ("low bust", "the bust points lie low: a dart ends above them"),
        ("high bust", "the bust points lie high: a dart ends below them"),
        Move("bust_depth", 2.0),
        Move("neck_to_bust_point", 2.0),
    ),
    *_pair(
        "arm",
        _RESIDUAL,
        ("full arms", "sleeves are tight round the upper arm"),
        ("slim arms", "sleeves are loose round the upper arm"),
        Move("upper_arm_girth", 1.7),
    ),
    *_pair(
        "arm_length",
        _RESIDUAL,
        ("long arms", "sleeves end above the wrist"),
        ("short arms", "sleeves end on the hand"),
        Move("outer_arm_length", 1.8),
    ),
)

SAYINGS: dict[str, Saying] = {saying.words: saying for saying in _ALL}
"""All sayings but those of a cup, by their words."""


def cup_saying(letter: str) -> Saying:
    """`bust D`: so many cups beside the drafted one. The front is longer over a fuller bust, by half of it."""
    cups = CUPS[letter.lower()] - DRAFTED_CUP
    moves = (Move("high_bust_girth", -cups * CUP), Move("front_waist_length", cups * CUP / 2))
    return Saying(f"bust {letter.upper()}", "cup", "the cup of a bra that fits", moves, _CUP)
