"""From a request to a garment that every check has looked at: what the command calls, and a page or a batch may."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from draft import checks
from draft.base.naming import plain
from draft.base.notes import Note, Problems, caution, error, stop_if_errors
from draft.base.plainly import Measures, sentence
from draft.bodies.estimates import Estimate, completed_own
from draft.bodies.left_right import two_bodies
from draft.bodies.own_measure import OwnMeasure
from draft.bodies.unlike_others import unlike_others
from draft.drafting.drafting import Drafted, draft_plan
from draft.drafting.her_length import at_her_length
from draft.drafting.planned import Planned, plan_for
from draft.drafting.request import Request
from draft.drafting.two_halves import put_together
from draft.drafting.whom import find_bodies
from draft.fabrics.fabric import Fabric
from draft.fabrics.properties import PROPERTIES
from draft.garment.garment import Garment, Piece
from draft.seams.own_allowance import with_own_allowance
from draft.seams.shrinkage import before_washing, shrinkage_notes


def draft_and_check(request: Request, whole: bool = False) -> Drafted:
    """Draft what is asked for; `whole` asks for every seam of the garment.

    Raises `Problems` for mistakes in the texts, and for pieces that nobody could cut; other faults of the drawing are
    among the notes of the result.
    """
    return draft_planned(plan_for(request), whole)


def draft_planned(planned: Planned, whole: bool = False) -> Drafted:
    """Draft and check what is planned already, as `draft_and_check` does."""
    return checked(draft_unchecked(planned), whole)


def draft_unchecked(planned: Planned) -> Drafted:
    """Draft what is planned, for whoever looks at lines while they move: nothing has been checked yet.

    Raises `Problems` for measures that are missing, and for pieces that nobody could cut.
    """
    request, plan = planned.request, planned.plan
    bodies, estimates = find_bodies(request.whom, planned.chart, plan.measures, plan.known, plan.wearers)
    drafted = replace(draft_plan(plan, bodies), estimates=estimates, planned=planned)
    drafted = replace(drafted, garment=as_asked(drafted.garment, request, estimates))
    stop_if_errors(checks.run(_of_drafted(drafted), checks.FIRST_CHECKS))
    return drafted


def checked(drafted: Drafted, whole: bool = False) -> Drafted:
    """What came of `draft_unchecked`, with the notes of all checks; larger where cloth is cut unwashed."""
    assert drafted.planned
    request, fabric = drafted.planned.request, drafted.planned.fabric
    if not drafted.outcome.drafted.all():
        return drafted  # the lines of a body that failed mean nothing, and checking them would only add to the noise
    drafted = _with_sides(drafted, request)
    if request.unwashed:
        drafted = _unwashed(drafted, fabric)
    odd = _odd(drafted) if request.whom.is_person else ()
    of_a_chart = () if request.whom.is_person else checks.CHART_CHECKS
    used = (*checks.CHECKS, *of_a_chart, *(checks.WHOLE_CHECKS if whole else ()))
    return replace(drafted, notes=(*odd, *drafted.notes, *checks.run(drafted.seamed, used)))


def _odd(drafted: Drafted) -> tuple[Note, ...]:
    """A caution on the measure of one person that is least like the rest of her."""
    guessed = {one.name for one in drafted.estimates}
    taken = {name: column for name, column in drafted.bodies.values.items() if name not in guessed}
    names = unlike_others(replace(drafted.bodies, values=taken), drafted.plan.wearers)
    if not names:
        return ()
    fact = f"hardly anybody has such a {plain(names[0])} beside her other measures"
    plainly = sentence("measure_is_odd", "take_it_again", measure=Measures((names[0],)))
    return (caution(fact, None, "take it again, and look for a slip in what was written down", plainly=plainly),)


def as_asked(garment: Garment, request: Request, estimates: Iterable[Estimate]) -> Garment:
    """The garment without what a person needs no line for, and with the allowance that is asked for."""
    if request.whom.is_person:
        garment = at_her_length(garment, estimates)
    return garment if request.allowance is None else with_own_allowance(garment, request.allowance)


def _with_sides(drafted: Drafted, request: Request) -> Drafted:
    """The same with its left and right drafted apart, where they were measured so and that moves any line.

    Raises `Problems` where one of them cannot be drafted.
    """
    plan = drafted.plan
    follows = [one.name for one in drafted.estimates if isinstance(plan.known[one.name], OwnMeasure)]
    both = two_bodies(drafted.bodies, but=follows)
    if both is None:
        return drafted
    both, _ = completed_own(both, plan.measures, plan.known)  # what follows from a side is that side's
    halves = draft_plan(drafted.plan, both)
    stop_if_errors([note for note in halves.notes if note not in drafted.notes])
    apart = put_together(drafted.garment, as_asked(halves.garment, request, drafted.estimates))
    return replace(drafted, apart=apart) if apart.opened or apart.parted or apart.between else drafted


def _of_drafted(drafted: Drafted) -> Garment:
    """The garment without the lines of bodies that failed, which mean nothing."""
    good = drafted.outcome.drafted
    if good.all():
        return drafted.garment

    def kept(piece: Piece) -> Piece:
        blank = (
            replace(edge, segments=np.where(good[:, None, None, None], edge.segments, np.nan)) for edge in piece.edges
        )
        return replace(piece, edges=tuple(blank))

    return replace(drafted.garment, pieces=tuple(kept(piece) for piece in drafted.garment.pieces))


def _unwashed(drafted: Drafted, cloth: Fabric | None) -> Drafted:
    if cloth is None or not cloth.shrinks:
        fix = 'give its shrinkage in a file, such as `shrinkage_down = "5 %"`, with `--fabric FILE`'
        how = f"to measure it, {PROPERTIES['shrinkage_down'].how}"
        plainly = sentence("washing_unknown", "give_shrinkage")
        raise Problems(
            [error("nothing is known of what washing takes from this cloth", None, fix, how, plainly=plainly)]
        )
    across, down = cloth.get("shrinkage_across"), cloth.get("shrinkage_down")
    notes = (*drafted.notes, *shrinkage_notes(drafted.garment, across, down))
    if drafted.apart:
        grown = replace(drafted.apart, cut=before_washing(drafted.apart.cut, across, down))
        drafted = replace(drafted, apart=grown)
    return replace(drafted, unwashed=before_washing(drafted.garment, across, down), notes=notes)
