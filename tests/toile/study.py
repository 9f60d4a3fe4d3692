"""Surveyed women in each bundled knit top, her own draft and the nearest size: `python -m tests.toile.study FILE`.

The file has the columns of ANSUR II (mm) and is not kept here. `--women 60` says how many of them, those with the
largest and smallest bust, waist, hip and stature first; `--edge 20` the mesh in mm; `--states down,ride,held` what each
is settled in; `--patterns marlpit` which. Prints a line for each that is refused, and a row for each pattern.
"""

from __future__ import annotations

import sys
import time
from argparse import ArgumentParser
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import numpy as np

from draft.base.arrays import Ints
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.drafting.drafting import drawn
from draft.form.dress_form import Form, form_of
from draft.form.field import Field, field_of
from draft.form.landmarks import landmarks_of
from draft.garment.garment import Garment
from draft.sitting.hand_stretch import hand_stretch, of_cloth
from draft.sitting.sitting_of import FINER
from draft.toile.dressed import Dressed, Refused, State
from draft.toile.dressing import dress
from draft.toile.sewing_up import sew
from draft.toile.why_not import CannotDress
from tests.asking import bundled
from tests.pieces.shapes import plan_of
from tests.survey import women_of

GIRTHS = ("bust_girth", "waist_girth", "hip_girth")


@dataclass(frozen=True)
class Tried:
    """One woman in one garment: seconds of the processor, and what came of it."""

    who: str
    what: str
    seconds: float
    found: Dressed | Refused


def chosen(women: Bodies, count: int) -> Ints:
    """Both ends of bust, waist, hip and stature, and then women evenly through the file."""
    ends = [int(pick(women.values[name])) for name in (*GIRTHS, "stature") for pick in (np.argmin, np.argmax)]
    even = np.linspace(0, len(women) - 1, 4 * count).astype(int).tolist()
    return np.array(list(dict.fromkeys([*ends, *even]))[:count])


def tried(pattern: str, women: Bodies, edge_length: float, states: Sequence[State], arms: float) -> list[Tried]:
    """All of the women in their own drafts of a pattern, and in the size of its chart that comes nearest."""
    plan = plan_of(pattern)
    people = completed(women, plan.measures, plan.known, plan.wearers)[0]
    own = drawn(plan, people)[1]
    sized = bundled(pattern)
    form = form_of(people)
    assert form is not None
    found = []
    for k, who in enumerate(women.names):
        away = sum(np.abs(sized.bodies.values[name] - people.values[name][k]) for name in GIRTHS)
        near = int(np.argmin(away))
        found.append(_try(f"{who}, her own", pattern, own, k, form, k, edge_length, states, arms))
        size = sized.garment.sizes[near]
        found.append(_try(f"{who} in {size}", pattern, sized.garment, near, form, k, edge_length, states, arms))
    return found


def _try(
    who: str,
    what: str,
    garment: Garment,
    row: int,
    form: Form,
    body: int,
    edge_length: float,
    states: Sequence[State],
    arms: float,
) -> Tried:
    @cache
    def field_at(below_level: float) -> Field:
        return field_of(form, body, below_level)

    def dressed(edge_length: float) -> Dressed | Refused:
        try:
            sewn = sew(garment, row, edge_length)
            return dress(sewn, field_at, landmarks_of(form, body), stretch, float(np.radians(arms)), states)
        except CannotDress as error:
            return Refused(error.why)

    start = time.process_time()
    stretch = of_cloth(hand_stretch(garment))
    found = dressed(edge_length)
    if isinstance(found, Refused) and found.reason.key == "why_stands_through":  # as a sheet does
        found = dressed(edge_length * FINER)
    print(f"{what} {who}", file=sys.stderr, flush=True)
    return Tried(who, what, time.process_time() - start, found)


def row_of(pattern: str, tries: Sequence[Tried]) -> str:
    """How many were dressed, in what time, how deep the form stands in the cloth, and how far it is stretched."""
    there = [one.found for one in tries if isinstance(one.found, Dressed)]
    seconds = [one.seconds for one in tries]
    told = f"{pattern:10} dressed {len(there)} of {len(tries)}, {np.median(seconds):.1f} s, at most {max(seconds):.1f};"
    if not there:
        return told
    down = [one.states["down"] for one in there]
    single = [state.across[one.sewn.layers < 1.5] for one, state in zip(there, down, strict=True)]
    told += f" deepest {max(one.penetration for one in down):.2f} mm;"
    told += f" strain at most {max(s.max() for s in single):.3f},"
    told += f" of 98 in 100 at most {max(np.percentile(s, 98) for s in single):.3f};"
    for state in there[0].states:
        rise = [np.mean([one.hem[state][end] - one.hem["down"][end] for end in one.hem[state]]) / 10 for one in there]
        moving = sum(not one.states[state].settled for one in there)
        told += f" {state}: rises {np.median(rise):.1f} cm, at most {max(rise):.1f}, not at rest {moving};"
    return told


def main(arguments: Sequence[str]) -> None:
    """Prints a row for each pattern."""
    parser = ArgumentParser(prog="python -m tests.toile.study")
    parser.add_argument("file", type=Path)
    parser.add_argument("--women", type=int, default=60)
    parser.add_argument("--edge", type=float, default=20.0)
    parser.add_argument("--arms", type=float, default=50.0)
    parser.add_argument("--states", default="down")
    parser.add_argument("--patterns", default="marlpit,tidemill,netloft")
    asked = parser.parse_args(arguments)
    every = women_of(asked.file)
    some = every.select([every.names[k] for k in chosen(every, asked.women)])
    for pattern in asked.patterns.split(","):
        tries = tried(pattern, some, asked.edge, asked.states.split(","), asked.arms)
        for one in tries:
            if isinstance(one.found, Refused):
                print(f"{pattern:10} {one.who}: {one.found.reason}", flush=True)
        print(row_of(pattern, tries), flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
