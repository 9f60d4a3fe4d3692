"""The bodies that a request means: sizes of a chart, or one person as read, answered, estimated and blended."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from draft.base.disk import files_in, is_there
from draft.base.notes import Problems, error, stop_if_errors
from draft.base.plainly import sentence
from draft.bodies.blend import read_like
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.estimates import Estimate, completed, completed_own, unestimated
from draft.bodies.given_measures import NAME, read_given, with_given
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import Known
from draft.bodies.person import read_person
from draft.bodies.said import read_figure, with_figure
from draft.bodies.wearers import WOMEN, Wearers
from draft.drafting.request import Whom

ONE_SIZE = "one size"
"""The only size of a pattern that asks for no body measure, such as a bag's."""


def find_bodies(
    whom: Whom, chart: Path | None, needed: Sequence[str], known: Known = MEASURES, wearers: Wearers = WOMEN
) -> tuple[Bodies, tuple[Estimate, ...]]:
    """The bodies, and the estimates in place of what a person did not measure; `chart` is the pattern's own.

    What a person lacks is estimated as it is in `wearers`; sizes of a chart lack nothing but measures of the pattern's
    own, among those that are `known`.
    Raises `Problems` for mistakes in the files, and for what is missing and cannot be estimated.
    """
    if not needed and not whom.is_person and not (whom.chart or chart):
        return Bodies((ONE_SIZE,), {}).select(whom.sizes or [ONE_SIZE]), ()
    if not whom.is_person:
        sizes = read_sizes(chart_for(whom, chart), known)
        chosen = sizes.select(whom.sizes) if whom.sizes is not None else sizes
        whole, own = completed_own(chosen, needed, known)
        return whole, _of_a_size(own)
    person = the_person(whom, chart, known)
    return completed_person(person, needed, known, wearers)


def completed_person(
    person: Bodies, needed: Sequence[str], known: Known = MEASURES, wearers: Wearers = WOMEN
) -> tuple[Bodies, tuple[Estimate, ...]]:
    """A person with what was not taken estimated and moved by what is said of the figure, and what was estimated.

    Raises `Problems` for what is missing and cannot be estimated.
    """
    bodies, estimates = completed(person, needed, known, wearers)
    estimates = _of_a_size(estimates) if person.standing_in else estimates
    if person.figure:
        bodies, estimates = with_figure(bodies, read_figure(person.figure), estimates)
    stop_if_errors(unestimated(bodies, needed, known, wearers))
    return bodies, estimates


def _of_a_size(estimates: tuple[Estimate, ...]) -> tuple[Estimate, ...]:
    """A size, or who lies between sizes, has the block's own shape where the chart has no row for it."""
    return tuple(replace(one, told=one.spread is not None or one.name not in MEASURES) for one in estimates)


def read_sizes(chart: Path | None, known: Known = MEASURES) -> Bodies:
    """The sizes of a chart. Raises `Problems` where there is none, or it has mistakes."""
    if chart is None:
        raise Problems(
            [error("this pattern names no chart", None, "give `--chart FILE`, or `--body FILE` for one person")]
        )
    return read_chart(chart, known)


def chart_for(whom: Whom, own: Path | None) -> Path | None:
    """The chart that is asked for, or the pattern's own: a path, or the name of one that lies beside that.

    Raises `Problems` for a name that none there has.
    """
    asked = whom.chart
    if asked is None or own is None or asked.suffix or asked.parent != Path() or is_there(asked):
        return asked or own
    beside = own.with_name(f"{asked.name}.csv")
    if is_there(beside):
        return beside
    names = [path.stem for path in files_in(own.parent, ".csv")]
    listed = f"give the path of a CSV file, or one of those beside the pattern: {', '.join(names)}"
    raise Problems([error(f"there is no size chart `{asked}`", None, listed, plainly=sentence("no_such_chart"))])


def the_person(whom: Whom, chart: Path | None, known: Known = MEASURES) -> Bodies:
    """One person with what was taken of her, and nothing estimated. Raises `Problems` for mistakes in the files."""
    answers = read_given(whom.answers, known=known) if whom.answers else None
    found = with_given(_described(whom, chart, known), answers) if answers else _described(whom, chart, known)
    taken = frozenset(answers.values) if answers else frozenset()
    return replace(found, figure=whom.figure or found.figure, standing_in=found.standing_in - taken)


def _described(whom: Whom, chart: Path | None, known: Known) -> Bodies:
    """The person but for what was answered: her file's, between sizes, or nobody known."""
    if whom.body:
        return read_person(whom.body, known)
    if whom.like:
        found = read_like(whom.like, read_sizes(chart_for(whom, chart), known))
        named = (whom.name,) if whom.name else found.names
        return replace(found, names=named, standing_in=frozenset(found.values))
    return Bodies((whom.name or NAME,), {})
