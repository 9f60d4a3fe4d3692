"""Which size for whom: a pattern drafted for its chart and for one person, and the two compared."""

from __future__ import annotations

from draft.base.notes import Problems, error, stop_if_errors
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres
from draft.bodies.estimates import Estimate, completed_own
from draft.drafting.drafting import Drafted, draft_plan
from draft.drafting.planned import plan_for
from draft.drafting.request import Request
from draft.drafting.whom import chart_for, find_bodies, read_sizes
from draft.fit.choosing import SizeFit, Wear, choose
from draft.fit.levels import closeness, levels, over
from draft.fit.sentences import between, fit_sentence, how_to_grade


@dataclass(frozen=True)
class Sized:
    """One pattern for the sizes of its chart and for one person, with how the sizes fit that person."""

    sizes: Drafted
    person: Drafted
    fit: SizeFit
    estimates: tuple[Estimate, ...]

    @property
    def shown(self) -> list[int]:
        """The size to cut and its neighbours; the largest two where none is large enough."""
        count, best = len(self.sizes.garment.sizes), int(self.fit.cut[0])
        middle = best if best >= 0 else count - 1
        return [k for k in (middle - 1, middle, middle + 1) if 0 <= k < count]


def size_for(request: Request, wear: Wear = "as drafted") -> Sized:
    """How the sizes of a pattern fit the person that is asked for.

    Raises `Problems` for mistakes in the texts, and where the pattern says of no measurement what it is worn over.
    """
    planned = plan_for(request)
    plan, chart = planned.plan, chart_for(request.whom, planned.chart)
    bodies, estimates = find_bodies(request.whom, chart, plan.measures, plan.known, plan.wearers)
    whole, _ = completed_own(read_sizes(chart, plan.known), plan.measures, plan.known)
    sizes, person = draft_plan(plan, whole), draft_plan(plan, bodies)
    stop_if_errors((*sizes.notes, *person.notes))
    fit = choose(sizes.garment, person.garment, wear)
    if fit is None:
        fix = "write, say, `bust around = ... over bust_girth` under `finished`"
        raise Problems([error("no finished measurement of this pattern says what it is worn over", None, fix)])
    return Sized(sizes, person, fit, tuple(one for one in estimates if one.told))


def size_report(sized: Sized) -> str:
    """The best size in words, and the ease in it, in its neighbours and made to measure."""
    names, person = sized.sizes.garment.sizes, sized.person.garment
    shown = sized.shown
    rows = [("ease in", "body", *(names[k] for k in shown), "made to measure", "")]
    for level, finished in enumerate(levels(person)):
        body = float(over(finished)[0])
        own = float(finished.values[0]) - body
        eases = [float(sized.fit.ease[0, k, level]) for k in shown]
        best = int(sized.fit.cut[0])
        word = closeness(float(sized.fit.ease[0, best, level]), body) if best >= 0 else ""
        said = f"{names[best]} is {word} here" if word else ""
        rows.append((finished.title, *(in_centimetres(v) for v in (body, *eases, own)), said))
    said = f"{person.sizes[0]}: {fit_sentence(sized.fit, names)}"
    lines = [said, how_to_grade(sized.fit, names), between(sized.fit, names)]
    return "\n".join([line for line in lines if line]) + f"\n\n{in_columns(rows)}"
