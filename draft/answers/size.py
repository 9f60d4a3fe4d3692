"""Which size for whom: a pattern drafted for its chart and for one person, and the two compared."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from draft.answers.unsure import Unsure, doubt_sentences, sizes_between, unsure_of
from draft.base.naming import and_list
from draft.base.notes import Problems, error, stop_if_errors
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import Estimate, completed_own
from draft.bodies.guessed_girths import tried_both_ways, with_guesses
from draft.drafting.drafting import Drafted, draft_plan, drawn
from draft.drafting.planned import Planned, plan_for
from draft.drafting.request import Request
from draft.drafting.whom import chart_for, completed_person, read_sizes, the_person
from draft.fit.choosing import SizeFit, Wear, choose
from draft.fit.levels import closeness, levels, over
from draft.fit.sentences import between, fit_sentence, how_to_grade
from draft.garment.garment import Finished

SAME = 1e-3
"""A share of the body's measures: by less no chart is nearer than another."""


@dataclass(frozen=True)
class Sized:
    """One pattern for the sizes of its chart and for one person, with how the sizes fit that person.

    Behind the person are drafted the same with each of its main girths that nobody took at either end of its doubt.
    """

    sizes: Drafted
    person: Drafted
    fit: SizeFit
    estimates: tuple[Estimate, ...]
    unsure: Unsure
    chart: str = ""
    """The name of the chart, where the pattern has several; nothing of the usual one."""
    off: float = 0.0
    """How far what was taken of the person lies from the size to cut: the root of the mean square, as a share."""
    others: tuple[tuple[str, str, float], ...] = ()
    """The other charts of the pattern by their names, with the size to cut in each, and how far off that is."""

    @property
    def cut(self) -> str:
        """The name of the size to cut; nothing where none is large enough."""
        best = int(self.by_sure.cut[0])
        return self.sizes.garment.sizes[best] if best >= 0 else ""

    @property
    def by_sure(self) -> SizeFit:
        """The fit by the levels of which enough is known."""
        return self.fit.only(self.unsure.sure)

    @property
    def shown(self) -> list[int]:
        """The size to cut and its neighbours; the largest two where none is large enough."""
        count, best = len(self.sizes.garment.sizes), int(self.by_sure.cut[0])
        middle = best if best >= 0 else count - 1
        return [k for k in (middle - 1, middle, middle + 1) if 0 <= k < count]


def size_for(request: Request, wear: Wear = "as drafted") -> Sized:
    """How the sizes of a pattern fit the person that is asked for, of whom one girth that decides is enough.

    Raises `Problems` for mistakes in the texts, where the pattern says of no measurement what it is worn over, and
    where no girth is known that it is worn over.
    """
    planned = plan_for(request)
    if request.whom.chart or request.whom.like or len(planned.charts) < 2:
        return _sized(planned, chart_for(planned.request.whom, planned.chart), wear)
    tried = [replace(_sized(planned, chart, wear), chart=name) for name, chart in planned.charts.items()]
    best = min(tried, key=lambda one: (not one.cut, one.off))
    return replace(best, others=tuple((one.chart, one.cut, one.off) for one in tried if one is not best))


def _sized(planned: Planned, chart: Path | None, wear: Wear) -> Sized:
    """How the sizes of one chart fit the person."""
    plan = planned.plan
    taken = the_person(planned.request.whom, chart, plan.known)
    guessed, guesses = with_guesses(taken, plan.wearers)
    one, estimates = completed_person(guessed, plan.measures, plan.known, plan.wearers)
    whole, _ = completed_own(read_sizes(chart, plan.known), plan.measures, plan.known)
    sizes = draft_plan(plan, whole)
    person = draft_plan(plan, one)
    stop_if_errors((*sizes.notes, *person.notes))
    both_ways, _ = completed_person(tried_both_ways(guessed, guesses), plan.measures, plan.known, plan.wearers)
    tried = drawn(plan, both_ways)[1] if guesses else person.garment
    fit = choose(sizes.garment, tried, wear)
    if fit is None:
        fix = "write, say, `bust around = ... over bust_girth` under `finished`"
        raise Problems([error("no finished measurement of this pattern says what it is worn over", None, fix)])
    unsure = unsure_of(tried, guesses)
    if not unsure.sure:
        asked = and_list([f"`{one.name}`" for one in unsure.guesses])
        fix = f"give one of {asked}" if len(unsure.guesses) > 1 else f"give {asked}"
        raise Problems([error("what was measured decides no size of this garment", None, fix)])
    told = (*(guess for guess in guesses if guess.name in plan.measures), *(e for e in estimates if e.told))
    found = Sized(sizes, person, fit, told, unsure)
    return replace(found, off=_off(taken, whole, int(found.by_sure.cut[0])))


def _off(person: Bodies, sizes: Bodies, size: int) -> float:
    """How far a person lies from a size in all that was taken of her, lengths too: a share, none where none is cut."""
    both = [(person.values[name][0], sizes.values[name][size]) for name in person.values if name in sizes.values]
    return float(np.sqrt(np.mean([(own / other - 1.0) ** 2 for own, other in both]))) if both else 0.0


def size_report(sized: Sized) -> str:
    """The best size in words, what is in doubt, and the ease in it and its neighbours beside what is intended."""
    names, fit = sized.sizes.garment.sizes, sized.by_sure
    doubt = doubt_sentences(sized.unsure, sized.fit, names)
    said = f"{sized.person.garment.sizes[0]}: {fit_sentence(fit, names, where='there' if doubt else 'all over')}"
    graded = [] if doubt else [between(fit, names)]
    lines = [said, *_of_charts(sized), *doubt, how_to_grade(fit, names), *graded]
    return "\n".join([line for line in lines if line]) + f"\n\n{in_columns(_rows(sized))}"


def _of_charts(sized: Sized) -> list[str]:
    """From which of several charts the size is, and which it would be from the others."""
    if not sized.others:
        return []
    others = and_list([f"{size or 'none'} of {_called(name)}" for name, size, _ in sized.others])
    if all(abs(off - sized.off) < SAME for _, size, off in sized.others if size):
        why = "nothing that was measured tells the charts apart: give the height, and what is long or short on you"
        return [f"the size is from {_called(sized.chart)}; it would be {others}", why]
    asked = f" (`--chart {sized.chart}`)" if sized.chart else ""
    return [f"it is from {_called(sized.chart)}{asked}, which is nearest in all that was measured, not {others}"]


def _called(chart: str) -> str:
    return f"the chart {chart.replace('_', ' ')}" if chart else "the usual chart"


def _rows(sized: Sized) -> list[tuple[str, ...]]:
    names = sized.sizes.garment.sizes
    rows: list[tuple[str, ...]] = [("ease in", "body", *(names[k] for k in sized.shown), "intended", "")]
    sure = sized.unsure.sure
    for level, finished in enumerate(levels(sized.person.garment)):
        if level in sure:
            rows.append((finished.title, *_known(sized, level, sure.index(level), finished)))
        else:
            unknown = ("?",) * (len(sized.shown) + 1)
            rows.append(
                (finished.title, *unknown, "", f"{sizes_between(sized.fit, names, level)}, as far as can be told")
            )
    return rows


def _known(sized: Sized, level: int, among: int, finished: Finished) -> tuple[str, ...]:
    """What the body has, the ease in the sizes, and that which is intended; `among` is its place in `by_sure`."""
    body = float(over(finished)[0])
    eases = [float(sized.fit.ease[0, k, level]) for k in sized.shown]
    own = float(finished.values[0]) - body
    return (*(in_centimetres(v) for v in (body, *eases, own)), _closeness(sized, level, among, body))


def _closeness(sized: Sized, level: int, among: int, body: float) -> str:
    best, names = int(sized.by_sure.cut[0]), sized.sizes.garment.sizes
    if best < 0:
        return ""
    if among in sized.by_sure.grading(0):
        word = "is too close" if not sized.fit.enough[0, best, level] else "is far too loose"
        return f"{names[best]} {word} here"
    return f"{names[best]} is {closeness(float(sized.fit.ease[0, best, level]), body)} here"
