"""A size chart before people: whom its sizes serve, what is odd about it, and a chart proposed for some people."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np

from draft.base.csvtext import csv_text
from draft.base.disk import is_file
from draft.base.naming import and_list, plain
from draft.base.notes import Problems, error
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.base.units import Kind, in_centimetres
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.chart_proposed import WITHIN, Proposal, proposed
from draft.bodies.chart_served import GIRTHS, HALF, WHOLE, nearest_size, served, usual_at
from draft.bodies.fit_names import unfit_name
from draft.bodies.formula import GIVEN
from draft.bodies.many import read_many
from draft.bodies.measures import MEASURES
from draft.bodies.population import POPULATIONS, people_of
from draft.bodies.wearers import WOMEN, wearers_called
from draft.drafting.planned import plan_for
from draft.drafting.request import Request, Whom
from draft.drafting.whom import chart_for, read_sizes

FILE = "sizes.csv"
LOOKED_AT = (("bust_girth",), ("waist_girth",), ("hip_girth",), ("bust_girth", "hip_girth"), GIRTHS)
_ODD = 1.0
"""A waist or hip is told to be odd where it lies this many spreads off what people of that bust usually have."""
_FEWER, _MOST_SIZES = 2, 40
_LEAST = 20
"""Fewer bodies say nothing of a chart."""


@dataclass(frozen=True)
class People:
    """Bodies with bust, waist, hip and stature, in mm, and whose they are, in words."""

    bodies: Bodies
    told: str
    wearers: str = "women"


def people_called(text: str, statures: tuple[float, float] | None = None) -> People:
    """The people of a survey by their name, `women` or `men`, or those of a table of bodies; of some statures, mm.

    Raises Problems where there are too few, or they have no bust, waist, hip or stature.
    """
    bodies, told = _bodies_called(text)
    if statures:
        low, high = statures
        tall = bodies.values["stature"]
        bodies = bodies.at(np.flatnonzero((tall >= low) & (tall <= high)))
        told = f"{told}, of {_cm(low)} to {_cm(high)} cm"
        _stop_if_few(len(bodies), f"are {_cm(low)} to {_cm(high)} cm tall")
    return People(bodies, f"{len(bodies):,} {told}", text if text in POPULATIONS else "women")


def _bodies_called(text: str) -> tuple[Bodies, str]:
    if text in POPULATIONS:
        return people_of(text), POPULATIONS[text].told
    path = Path(text)
    if not is_file(path):
        raise Problems(
            [error(f"there are no people called `{text}`", None, "write women, men, or the path of a table")]
        )
    return _whole([some.bodies for some in read_many(path)]), f"bodies of {path.name}"


def _stop_if_few(count: int, what: str) -> None:
    if count < _LEAST:
        columns = ", ".join(f"`{name} cm`" for name in GIVEN)
        fact = f"only {count} of these bodies {what}, and it takes {_LEAST} to judge a chart"
        raise Problems([error(fact, None, f"give more of them, each with {columns}")])


def _whole(parts: Sequence[Bodies]) -> Bodies:
    """The bodies of all parts that have every girth and the stature."""
    values = {
        name: np.concatenate([part.values.get(name, np.full(len(part), np.nan)) for part in parts] or [np.zeros(0)])
        for name in GIVEN
    }
    there = np.logical_and.reduce([np.isfinite(column) for column in values.values()])
    _stop_if_few(int(there.sum()), "have bust, waist, hip and stature")
    return Bodies(tuple(name for part in parts for name in part.names), values).at(np.flatnonzero(there))


@dataclass(frozen=True)
class Called:
    """A chart that was asked for, by its name, and for whom it is made."""

    sizes: Bodies
    name: str
    wearers: str = WOMEN.name
    all_of_them: tuple[tuple[str, str, Bodies], ...] = ()
    """Where its pattern has several, all of them: the name of each, whom it is for, its sizes; the usual one first."""


def chart_called(text: str, named: str | None = None) -> Called:
    """The chart of a pattern, or that of a file; `named` is one of a pattern's.

    Raises Problems if it cannot be read, or there is none of that name.
    """
    path = Path(text)
    if path.suffix.lower() == ".csv":
        if named:
            raise Problems([error(f"{path.name} is a chart itself", None, "leave out `--chart`, or name a pattern")])
        return Called(read_chart(path), path.name)
    planned = plan_for(Request(text, Whom(chart=Path(named) if named else None)))
    known = planned.plan.known
    own = chart_for(planned.request.whom, planned.chart)
    found = Called(read_sizes(own, known), own.name if own else "", planned.plan.wearers.name)
    if len(planned.charts) < 2:
        return found
    words = dict(planned.plan.charts)
    every = tuple((name, words.get(name, ""), read_sizes(file, known)) for name, file in planned.charts.items())
    called = named if named in planned.charts else None
    return replace(found, name=f"{plain(called)} ({found.name})" if called else found.name, all_of_them=every)


# ---- what is told ---------------------------------------------------------------------------------------------------


def chart_report(chart: Bodies, name: str, people: People) -> str:
    """Whom the sizes of a chart serve, size by size and over all. Raises Problems for a chart without the girths."""
    lacking = [girth for girth in GIRTHS if girth not in chart.values]
    if lacking:
        raise Problems([error(f"{name} has no row `{lacking[0]}`, by which people are looked for in it")])
    parts = [f"{name}: {len(chart)} sizes, before {people.told}", _sizes(chart, people.bodies)]
    parts += [_shares(chart, people.bodies), *_odd(chart, people.bodies)]
    return "\n\n".join(parts)


def charts_report(called: Called, people: People) -> str:
    """All charts of a pattern before the same people, and how many they serve together; an empty text for one."""
    charts = called.all_of_them
    if not charts or any(girth not in sizes.values for _, _, sizes in charts for girth in GIRTHS):
        return ""
    rows: list[tuple[str, ...]] = [("chart", "for", "sizes", "bust", "stature", "nearest in stature", "serves")]
    nearest = _nearest_in_stature([sizes for _, _, sizes in charts], people.bodies)
    together = np.zeros(len(people.bodies), dtype=bool)
    for (name, words, sizes), share in zip(charts, nearest, strict=True):
        near = served(sizes, people.bodies, GIRTHS, WHOLE)
        together |= near
        ends = [_ends(sizes, measure) for measure in ("bust_girth", "stature")]
        rows.append(
            (plain(name) or "the usual one", words, str(len(sizes)), *ends, share, f"{100 * near.mean():.0f} %")
        )
    said = f"{100 * together.mean():.0f} % have a size within a step of them at bust, waist and hip in one of these"
    return f"{in_columns(rows)}\n\n{said}; `--chart NAME` looks at one of them"


def _nearest_in_stature(charts: Sequence[Bodies], people: Bodies) -> list[str]:
    """Of each chart the share of people whose stature its size of their bust comes nearest; empty if one lacks it."""
    if any("stature" not in chart.values for chart in charts):
        return [""] * len(charts)
    bust, tall = people.values["bust_girth"], people.values["stature"]
    off = [np.abs(one.values["stature"][nearest_size(one.values["bust_girth"], bust)] - tall) for one in charts]
    counts = np.bincount(np.argmin(off, axis=0), minlength=len(charts))
    return [f"{100 * count / len(people):.0f} %" for count in counts]


def _ends(chart: Bodies, measure: str) -> str:
    if measure not in chart.values:
        return ""
    return " to ".join(dict.fromkeys(_cm(end) for end in (chart.values[measure].min(), chart.values[measure].max())))


def _sizes(chart: Bodies, people: Bodies) -> str:
    """A row a size: its girths beside what people of its bust usually have, and the share whose bust is nearest."""
    bust = chart.values["bust_girth"]
    nearest = np.bincount(nearest_size(bust, people.values["bust_girth"]), minlength=len(chart))
    rows: list[tuple[str, ...]] = [("size", "bust", "waist", "usually", "hip", "usually", "nearest at the bust")]
    usual = {girth: usual_at(people.values["bust_girth"], people.values[girth], bust) for girth in GIRTHS[1:]}
    for k, size in enumerate(chart.names):
        cells = [size, _cm(bust[k])]
        for girth in GIRTHS[1:]:
            middle, spread = usual[girth]
            cells += [_cm(chart.values[girth][k]), f"{_cm(middle[k] - spread[k])} to {_cm(middle[k] + spread[k])}"]
        rows.append((*cells, f"{100 * nearest[k] / len(people):.0f} %"))
    return in_columns(rows)


def _shares(chart: Bodies, people: Bodies) -> str:
    rows: list[tuple[str, ...]] = [("a size is near them at", "by half a step", "by a step")]
    for girths in LOOKED_AT:
        found = [served(chart, people, girths, step).mean() for step in (HALF, WHOLE)]
        words = and_list([girth.removesuffix("_girth") for girth in girths])
        rows.append((words, *(f"{100 * share:.0f} %" for share in found)))
    smallest, largest = chart.values["bust_girth"].min(), chart.values["bust_girth"].max()
    less, more = ((people.values["bust_girth"] < smallest).mean(), (people.values["bust_girth"] > largest).mean())
    said = f"{100 * less:.0f} % have less bust than the smallest size, {100 * more:.0f} % more than the largest"
    return f"{in_columns(rows)}\n\n{said}"


def _odd(chart: Bodies, people: Bodies) -> list[str]:
    """A line for each girth that the sizes have markedly more or less of than people of such a bust."""
    lines = []
    for girth in GIRTHS[1:]:
        usual, spread = usual_at(people.values["bust_girth"], people.values[girth], chart.values["bust_girth"])
        off = chart.values[girth] - usual
        for sign, word in ((1, "more"), (-1, "less")):
            sizes = [size for size, o, s in zip(chart.names, off * sign, spread, strict=True) if o > _ODD * s]
            if sizes:
                lines.append(
                    f"caution: the {girth.removesuffix('_girth')} of {', '.join(sizes)} is markedly {word} than people "
                    "of that bust usually have"
                )
    return ["\n".join(lines)] if lines else []


def _cm(value: float) -> str:
    return f"{value / 10:.1f}"


# ---- what is proposed -----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Proposed:
    """A chart that is proposed, its file by its place in a folder, and what it comes to in words."""

    chart: Bodies
    share: float
    """Of the people, how many lie within what was asked of one of its sizes."""
    files: dict[str, bytes]
    said: str


def proposed_chart(
    names: Sequence[str], people: People, within: float = WITHIN, ends: tuple[float, float] | None = None
) -> Proposed:
    """A chart of these sizes. Raises Problems for names that cannot be.

    `ends` are the bust of the first and the last size, mm, where these are given.
    """
    _check(names)
    of = wearers_called(people.wearers) or WOMEN
    found = proposed(people.bodies, names, within, of, ends)
    said = [f"{len(names)} sizes for {people.told}", _served_by(found, len(names), within)]
    for count in (len(names) - _FEWER, len(names) + _FEWER):
        if count > 0:
            other = proposed(people.bodies, [str(k) for k in range(count)], within, of, ends)
            said.append(_served_by(other, count, within))
    words = "\n".join(said) + "\n\n" + _sizes(found.chart, people.bodies)
    return Proposed(found.chart, float(found.share), {FILE: chart_csv(found.chart)}, words)


def _served_by(found: Proposal, count: int, within: float) -> str:
    share = f"{100 * found.share:.0f} % lie within {in_centimetres(within)} of one of"
    bust = found.chart.values["bust_girth"]
    return f"{share} {count} sizes at bust, waist and hip, from bust {_cm(bust[0])} to {_cm(bust[-1])} cm"


def _check(names: Sequence[str]) -> None:
    twice = [name for k, name in enumerate(names) if name.casefold() in [n.casefold() for n in names[:k]]]
    wrong = [f"the size's name {fault}" for name in names if (fault := unfit_name(name))]
    wrong += [f"size {name} is there twice" for name in twice]
    if not names or len(names) > _MOST_SIZES:
        wrong.append(f"a chart has 1 to {_MOST_SIZES} sizes, not {len(names)}")
    if wrong:
        raise Problems([error(words, None, "name the sizes, as in `--propose XS,S,M,L,XL`") for words in wrong])


def chart_csv(chart: Bodies) -> bytes:
    """A chart as it is read: a row for each measure in the order that measures are listed, a column for each size."""
    rows: list[Sequence[object]] = [("measure", "unit", *chart.names)]
    for name, measure in MEASURES.items():
        if name in chart.values:
            unit, figures = "deg" if measure.kind is Kind.ANGLE else "cm", chart.values[name] / measure.unit
            rows.append((name, unit, *(f"{figure:.1f}".removesuffix(".0") for figure in figures)))
    return csv_text(rows)
