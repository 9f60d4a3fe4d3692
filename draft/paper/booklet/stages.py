"""When each sentence of a step is done: what is prepared comes before what is pinned, that before what is sewn.

Whoever follows a step sentence by sentence must never have sewn what she ought to have gathered first. So a sentence
has the stage that it belongs to, by its key in the language files, and a step tells its sentences in that order.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum

from draft.base.record import dataclass
from draft.paper.booklet.facts import BookletFacts
from draft.paper.drawing.called import Called
from draft.paper.drawing.wording import capitalised


class Stage(IntEnum):
    """What is done in a step, in the order of the trade (common practice)."""

    PREPARED = 1
    """What is done to single pieces: edges neatened, folds pressed, threads for gathers drawn in."""
    BETWEEN = 2
    """What will lie between two layers or along one is put there first."""
    LAID = 3
    PINNED = 4
    """Notches brought together, gathers drawn up, ease spread: all that is held until it is sewn."""
    GUIDED = 5
    """Where the needle begins, turns and ends."""
    SEWN = 6
    TRIMMED = 7
    PRESSED = 8
    AFTERWARDS = 9


_OF = {
    Stage.PREPARED: (
        "band_fold", "band_under", "casing_gap", "eased_rows", "facing_neatened", "gather_rows",
        "interfacing_outside", "invisible_zip_prepare", "lap_narrow", "lapped_zip_prepare", "patch_once",
        "patch_turned", "patch_turned_inside", "patch_turned_others", "sewn_on_fold", "slit_faced_marked",
        "slit_faced_uncut", "trial_hole", "elastic_ring",
    ),
    Stage.BETWEEN: ("caught", "sewn_in", "tape"),
    Stage.LAID: (
        "along", "along_folded", "along_two", "band", "band_flat", "band_seam_at", "band_seam_middle", "darts",
        "elastic_laid", "end_folded", "inner_darts", "itself", "itself_folded", "itself_pairs", "patch", "plain",
        "pleats", "ring", "set_in", "sides", "slit_faced", "tube", "wedge",
    ),
    Stage.PINNED: (
        "bowed_darts", "drawn_up", "eased", "elastic", "gathers_drawn", "notches", "notches_back", "notches_double",
        "patch_caught", "quarters", "quarters_fold", "quarters_half", "quarters_named",
    ),
    Stage.GUIDED: (
        "darts_sewn", "inner_darts_sewn", "left_open", "left_open_within", "open", "patch_open", "patch_open_both",
        "patch_sewn", "point", "ring_on", "shorter", "slit_faced_line_sewn", "slit_faced_sewn", "up_to_zip",
        "wedge_sewn", "within",
    ),
    Stage.SEWN: (
        "button", "button_one", "buttonhole", "buttonhole_one", "buttonholes", "buttons", "down", "down_pressed",
        "hem_text", "interfacing", "invisible_zip_first", "invisible_zip_second", "invisible_zip_last",
        "lapped_zip_first", "lapped_zip_second", "lapped_zip_last", "slit", "snap", "snap_one", "snaps", "stay",
        "stay_darts", "sew", "sew_plain", "stitch_hem", "stitch_on", "stitch_plain", "turning",
    ),
    Stage.TRIMMED: (
        "bowed_darts_snipped", "end_turned", "facing_later", "facing_turned", "inner_darts_snipped", "sides_turned",
        "sides_turned_straight",
        "slit_cut",
    ),
    Stage.PRESSED: (
        "press_away", "press_band", "press_dart", "press_dart_fold", "press_dart_one",
        "press_dart_one_fold", "press_darts", "press_darts_fold", "press_darts_to", "press_into",
        "press_open", "press_to", "ring_fold",
    ),
    Stage.AFTERWARDS: ("casing", "casing_elastic"),
}  # fmt: skip
STAGE_OF = {key: stage for stage, keys in _OF.items() for key in keys}
"""The stage of each sentence of the steps, by its key under `sewing` without `_each` and `_woven`."""


@dataclass(frozen=True)
class Sentence:
    """A sentence of a step, as it is printed, and when what it says is done."""

    text: str
    stage: Stage

    def at(self, stage: Stage) -> Sentence:
        """The same, done at another stage: the hem of a pocket is part of what is prepared."""
        return Sentence(self.text, stage)


def staged(key: str, facts: BookletFacts, **fields: str | int | Called) -> Sentence:
    """The sentence of a key under `sewing`."""
    text = facts.wording.say(f"sewing.{key}", **fields)
    return Sentence(capitalised(text), STAGE_OF[key.removesuffix("_each").removesuffix("_woven")])


def by_cloth(key: str, facts: BookletFacts) -> Sentence:
    """A sentence that there are two of, for cloth that stretches and for cloth that does not."""
    return staged(key if facts.knit else f"{key}_woven", facts)


def in_order(sentences: Iterable[Sentence]) -> list[Sentence]:
    """The sentences by their stages; within a stage as they were given."""
    return sorted(sentences, key=lambda one: one.stage)
