"""How far a toile's figures move with what is no fact: `python -m tests.toile.convergence`.

Mesh, growth, the form's grid, how stiff the form is, and how long the cloth is let come to rest, each against what is
used; on bundled sizes, and with a file that has the columns of ANSUR II on the women at its ends as well: `--women 4`
of them. For each of `--states down,ride,held` a row: the hem in mm and strain round the body, the median and the most
of all cases, and a line for each case that moves by more than 1 mm or 0.004 pulled down.
"""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path

import numpy as np

from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.drafting.drafting import drawn
from draft.form.dress_form import Form, form_of
from draft.form.field import Field, field_of
from draft.form.landmarks import landmarks_of
from draft.garment.garment import Garment
from draft.sitting.hand_stretch import hand_stretch, of_cloth
from draft.toile import contact, dressing, newton
from draft.toile.dressed import Dressed, Refused, State
from draft.toile.dressing import dress
from draft.toile.newton import Pace
from draft.toile.sewing_up import sew
from tests.asking import bundled
from tests.pieces.shapes import plan_of
from tests.survey import women_of
from tests.toile.hem_and_strain import figures
from tests.toile.study import GIRTHS, chosen

EDGE, GRID, ARMS = 20.0, 8.0, float(np.radians(50.0))
SIZES = (("marlpit", "M", "M"), ("marlpit", "M", "L"), ("tidemill", "M", "M"), ("netloft", "M", "M"))
PATTERN = "marlpit"


@dataclass(frozen=True)
class Case:
    """A garment of one body on a form."""

    name: str
    garment: Garment
    row: int
    form: Form
    body: int
    states: Sequence[State] = ("down",)

    def dressed(self, edge: float = EDGE, grid: float = GRID) -> Dressed | Refused:
        """The garment in the states that are asked for."""
        at: Callable[[float], Field] = cache(lambda angle: field_of(self.form, self.body, angle, grid))
        stretch = of_cloth(hand_stretch(self.garment))
        sewn = sew(self.garment, self.row, edge)
        return dress(sewn, at, landmarks_of(self.form, self.body), stretch, ARMS, self.states)


def of_sizes(states: Sequence[State]) -> Iterator[Case]:
    """Bundled sizes, on forms of their own and of others."""
    for name, size, on in SIZES:
        form = form_of(bundled(name, on).bodies)
        assert form is not None
        yield Case(f"{name} {size} on {on}", bundled(name, size).garment, 0, form, 0, states)


def of_women(every: Bodies, count: int, states: Sequence[State]) -> Iterator[Case]:
    """Those of some women who are at the ends, each in her own draft and in the nearest size."""
    some = every.select([every.names[k] for k in chosen(every, count)])
    plan = plan_of(PATTERN)
    people = completed(some, plan.measures, plan.known, plan.wearers)[0]
    own, sized, form = drawn(plan, people)[1], bundled(PATTERN), form_of(people)
    assert form is not None
    for k, who in enumerate(people.names):
        yield Case(f"{PATTERN}, {who}, her own", own, k, form, k, states)
        near = int(np.argmin(sum(np.abs(sized.bodies.values[name] - people.values[name][k]) for name in GIRTHS)))
        yield Case(f"{PATTERN}, {who} in {sized.garment.sizes[near]}", sized.garment, near, form, k, states)


@contextmanager
def other(module: object, name: str, value: object) -> Iterator[None]:
    """With another figure in a module."""
    before = getattr(module, name)
    setattr(module, name, value)
    try:
        yield
    finally:
        setattr(module, name, before)


def _stiffer(by: float) -> Callable[[Case], Dressed | Refused]:
    def dressed(case: Case) -> Dressed | Refused:
        whole = newton.Question.__init__.__defaults__
        assert whole is not None
        stiff = tuple(by * contact.STIFFNESS if value == contact.STIFFNESS else value for value in whole)
        with other(newton.Question.__init__, "__defaults__", stiff):
            return case.dressed()

    return dressed


def _grown(steps: int) -> Callable[[Case], Dressed | Refused]:
    def dressed(case: Case) -> Dressed | Refused:
        with other(dressing, "GROWTH", steps):
            return case.dressed()

    return dressed


def _exact(case: Case) -> Dressed | Refused:
    longer = tuple((times, _longer(pace)) for times, pace in dressing.EVER_SOFTER)
    with other(dressing, "EVER_SOFTER", longer), other(dressing, "TO_REST", tuple(map(_longer, dressing.TO_REST))):
        return case.dressed()


def _longer(pace: Pace) -> Pace:
    return Pace(pace.drag / 10, 4 * pace.steps, pace.until / 10, pace.within / 10, 1000, pace.by_levels)


OTHERS: dict[str, Callable[[Case], Dressed | Refused]] = {
    "mesh 24": lambda case: case.dressed(edge=24.0),
    "mesh 16": lambda case: case.dressed(edge=16.0),
    "mesh 12": lambda case: case.dressed(edge=12.0),
    "grown in 4 steps": _grown(4),
    "grown in 12 steps": _grown(12),
    "grid 5": lambda case: case.dressed(grid=5.0),
    "form a quarter as stiff": _stiffer(0.25),
    "form four times as stiff": _stiffer(4.0),
    "ten times as exact": _exact,
}


def moved(one: Dressed, two: Dressed, state: State) -> tuple[float, float]:
    """By how much the hem, mm, and the strain differ most."""
    (strain, hem), (other_strain, other_hem) = figures(one, state), figures(two, state)
    return float(np.abs(hem - other_hem).max()), float(np.abs(strain - other_strain).max())


def main(arguments: Sequence[str]) -> None:
    """Prints the table."""
    parser = ArgumentParser(prog="python -m tests.toile.convergence")
    parser.add_argument("files", type=Path, nargs="*")
    parser.add_argument("--women", type=int, default=4)
    parser.add_argument("--states", default="down")
    parser.add_argument("--only", default=",".join(OTHERS))
    asked = parser.parse_args(arguments)
    states: list[State] = asked.states.split(",")
    cases = [
        *of_sizes(states),
        *(case for file in asked.files for case in of_women(women_of(file), asked.women, states)),
    ]
    usual = [case.dressed() for case in cases]
    for what in asked.only.split(","):
        changed = OTHERS[what]
        rows: dict[State, list[tuple[float, float]]] = {state: [] for state in states}
        for case, one in zip(cases, usual, strict=True):
            two = changed(case)
            if isinstance(one, Refused) or isinstance(two, Refused):
                print(f"    {case.name}: refused, {[it.reason for it in (one, two) if isinstance(it, Refused)]}")
                continue
            for state in states:
                rows[state].append(moved(one, two, state))
            hem, strain = rows["down"][-1]
            if hem > 1.0 or strain > 0.004:
                print(f"    {case.name}, {what}: hem {hem:.2f} mm, strain {strain:.4f}", flush=True)
        for state, found in rows.items():
            hems, strains = np.array(found).T
            print(
                f"{what:26} {state:5} hem {np.median(hems):5.2f}, most {hems.max():5.2f} mm;"
                f" strain {np.median(strains):.4f}, most {strains.max():.4f}",
                flush=True,
            )


if __name__ == "__main__":
    main(sys.argv[1:])
