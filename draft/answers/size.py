"""Which size for whom: a pattern drafted for its chart and for one person, and the two compared."""

from __future__ import annotations

from draft.answers.unsure import Unsure, doubt_sentences, sizes_between, unsure_of
from draft.base.naming import and_list
from draft.base.notes import Problems, error, stop_if_errors
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres
from draft.bodies.estimates import Estimate, completed_own
from draft.bodies.guessed_girths import tried_both_ways, with_guesses
from draft.drafting.drafting import Drafted, draft_plan, drawn
from draft.drafting.planned import plan_for
from draft.drafting.request import Request
from draft.drafting.whom import chart_for, completed_person, read_sizes, the_person
from draft.fit.choosing import SizeFit, Wear, choose
from draft.fit.levels import closeness, levels, over
from draft.fit.sentences import between, fit_sentence, how_to_grade
from draft.garment.garment import Finished


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
    plan, chart = planned.plan, chart_for(request.whom, planned.chart)
    taken = the_person(request.whom, chart, plan.known)
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
    return Sized(sizes, person, fit, told, unsure)


def size_report(sized: Sized) -> str:
    """The best size in words, what is in doubt, and the ease in it and its neighbours beside what is intended."""
    names, fit = sized.sizes.garment.sizes, sized.by_sure
    doubt = doubt_sentences(sized.unsure, sized.fit, names)
    said = f"{sized.person.garment.sizes[0]}: {fit_sentence(fit, names, where='there' if doubt else 'all over')}"
    graded = [] if doubt else [between(fit, names)]
    lines = [said, *doubt, how_to_grade(fit, names), *graded]
    return "\n".join([line for line in lines if line]) + f"\n\n{in_columns(_rows(sized))}"


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
