"""The limits of a pattern tried: from a request to the causes of all that fails, and the garments to look at."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from draft.base.notes import stop_if_errors
from draft.base.record import dataclass
from draft.bodies.beside_a_size import beside
from draft.bodies.bodies import Bodies, body_notes
from draft.drafting.planned import plan_for, texts_for
from draft.drafting.request import Request
from draft.drafting.whom import find_bodies
from draft.garment.garment import Garment
from draft.garment.some_bodies import of_bodies
from draft.trying.causes import Cause, Causes
from draft.trying.faults import faults
from draft.trying.offered import Plans, offers_of
from draft.trying.settings import Offer, Setting, Settings, settings_of
from draft.trying.stacked import Stack, stacks


@dataclass(frozen=True)
class Limits:
    """What was tried of a pattern, and what came of it."""

    title: str
    offers: tuple[Offer, ...]
    settings: Settings
    bodies: Bodies
    """Those that each end alone is tried for."""
    ends: Bodies
    """Those that pairs are tried for: the smallest, the middle and the largest size."""
    causes: tuple[Cause, ...]
    drawn: dict[Setting, Garment]
    """The garment of the middle size as the pattern stands, and with each end alone, where it could be drafted."""
    middle: str


def try_limits(request: Request, say: Callable[[str], None] = lambda words: None) -> Limits:
    """Try a pattern in every style at both ends, for the sizes of its chart and for figures beside them.

    Raises `Problems` for mistakes in the texts and the chart, and where the pattern cannot be planned as it stands.
    """
    texts = texts_for(request.pattern)
    planned = plan_for(request, texts)
    plan = planned.plan
    whole, own = find_bodies(planned.request.whom, planned.chart, plan.measures, plan.known, plan.wearers)
    stop_if_errors(body_notes(whole, plan.measures, plan.known))
    reckoned = {
        one.name for one in own
    }  # by the pattern, from measures that a figure beside a size has more or less of
    sizes = replace(whole, values={name: found for name, found in whole.values.items() if name not in reckoned})
    plans = Plans(request, texts, planned.fabric)
    offers = offers_of(plans)
    settings = settings_of(offers)
    middle = len(sizes) // 2
    bodies = beside(sizes, middle, plan.measures)
    ends = sizes.select([sizes.names[k] for k in (0, middle, len(sizes) - 1)])
    found = _Finder(plans, middle)
    say("trying each style alone")
    as_sizes = (*sizes.names, *[sizes.names[middle]] * (len(bodies) - len(sizes)))
    found.look(((), *settings.alone), bodies, as_sizes, keep=True)
    say("trying pairs of styles")
    found.look(settings.pairs, ends)
    return Limits(
        plan.title, tuple(offers), settings, bodies, ends, tuple(found.causes.ordered()), found.drawn,
        sizes.names[middle],
    )  # fmt: skip


class _Finder:
    def __init__(self, plans: Plans, middle: int) -> None:
        self.plans, self.middle = plans, middle
        self.causes = Causes()
        self.drawn: dict[Setting, Garment] = {}

    def look(self, settings: Sequence[Setting], bodies: Bodies, sizes: Sequence[str] = (), keep: bool = False) -> None:
        """Draft the settings for the bodies and take in what fails; `keep` their garments of the middle size."""
        for stack in stacks(self.plans, settings, bodies, sizes):
            self.causes.add(stack, faults(stack) if isinstance(stack, Stack) else ())
            if keep and isinstance(stack, Stack):
                self._keep(stack)

    def _keep(self, stack: Stack) -> None:
        for number, setting in enumerate(stack.settings):
            row = number * len(stack.bodies) + self.middle
            if stack.outcome.drafted[row]:
                self.drawn[setting] = of_bodies(stack.garment, np.array([row]))
