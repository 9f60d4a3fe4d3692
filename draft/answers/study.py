"""A study: one pattern drafted for many bodies, a row of figures for each, and what they come to.

The bodies are read, drafted and written so many at a time, each lot in one evaluation, so that any number of them fits
in the memory of a small machine.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from copy import copy
from dataclasses import field, replace
from functools import partial
from itertools import islice
from pathlib import Path

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.aside import aside
from draft.base.csvtext import CsvText
from draft.base.naming import plain
from draft.base.notes import stop_if_errors
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.bodies.bodies import Bodies
from draft.bodies.chart_served import GIRTHS, WHOLE, served
from draft.bodies.estimates import completed, completed_own
from draft.bodies.many import CHUNK, Chunk, read_many
from draft.bodies.many_figures import with_figures
from draft.drafting.drafting import draft_plan, drawn
from draft.drafting.planned import plan_for
from draft.drafting.request import Request
from draft.drafting.whom import chart_for, read_sizes
from draft.fit.choosing import SizeFit, choose
from draft.fit.levels import levels
from draft.fit.stretch import least, needed_stretches
from draft.fit.verdicts import OFF, Verdicts, verdicts
from draft.garment.garment import Garment
from draft.paper.drawing.svg import svg
from draft.paper.pictures.study_drawing import Field, study_drawing
from draft.plan.plan import Plan

AT_ONCE = 2
"""Lots of bodies that are drafted beside one another."""

REASONS = 8  # shown in the summary; the table has them all


@dataclass
class Tally:
    """What a study has come to so far."""

    bodies: int = 0
    drafted: int = 0
    worn: int = 0
    served: int = 0
    near: int = 0
    """Those who have one size within a step at bust, waist and hip."""
    sizes: Counter[str] = field(default_factory=Counter)
    reasons: Counter[str] = field(default_factory=Counter)
    estimated: Counter[str] = field(default_factory=Counter)

    def add(self, other: Tally) -> None:
        """What some more bodies came to."""
        for name, more in vars(other).items():
            mine = getattr(self, name)
            if isinstance(mine, Counter):
                mine.update(more)
            else:
                setattr(self, name, mine + more)


@dataclass(frozen=True)
class _Lot:
    """What came of so many bodies: their rows as text, what they come to, and where they lie."""

    rows: bytes
    tally: Tally
    cells: Mapping[tuple[int, int], tuple[int, int]]


@dataclass(frozen=True)
class Study:
    """A finished study: its files by their place in a folder, and its summary in words."""

    files: dict[str, bytes]
    summary: str
    tally: Tally


def run_study(
    request: Request,
    people: Path,
    *,
    chunk: int = CHUNK,
    progress: Callable[[int], object] = lambda read: None,
) -> Study:
    """Draft what is asked for, for every body of a table; `progress` is told how many bytes of it are read.

    The sizes that they are compared with are those of the chart. Raises `Problems` for mistakes in the texts; what is
    wrong with one body is told in its row.
    """
    planned = plan_for(request)
    plan = planned.plan
    chart = read_sizes(chart_for(planned.request.whom, planned.chart), plan.known)
    sizes = draft_plan(plan, completed_own(chart, plan.measures, plan.known)[0])
    stop_if_errors(sizes.notes)
    return _Maker(plan, sizes.garment, chart).study(read_many(people, chunk, plan.known), progress)


class _Maker:
    def __init__(self, plan: Plan, sizes: Garment, chart: Bodies) -> None:
        self.plan = plan
        self.chart = chart
        self.sizes = sizes
        self.levels = list(levels(sizes))
        self.tally = Tally()
        self.field = Field.over(self.levels, sizes.sizes)
        self.table = CsvText()

    def study(self, people: Iterator[Chunk], progress: Callable[[int], object]) -> Study:
        self.table.add([self._head()])
        while lots := list(islice(people, AT_ONCE)):
            waiting = [aside(partial(self._lot, some)) for some in lots[1:]]
            fetched: list[Callable[[], _Lot]] = [partial(self._lot, lots[0]), *waiting]
            for fetch in fetched:
                self._put(fetch())
            progress(lots[-1].read)
        files = {"study.csv": self.table.data}
        files["study.svg"] = svg(study_drawing(self.plan.title, self.field)).encode()
        return Study(files, self._summary(), self.tally)

    def _head(self) -> list[str]:
        by_level = [f"{plain(level.name)} {what}" for level in self.levels for what in ("size", "ease cm")]
        return ["name", "drafted", "worn", "why", "size", "served", *by_level, "stretch across %", "stretch down %"]

    def _put(self, lot: _Lot) -> None:
        self.table.put(lot.rows)
        self.tally.add(lot.tally)
        self.field.put(lot.cells)

    def _lot(self, some: Chunk) -> _Lot:
        """What comes of some of the bodies, whoever is drafted beside them."""
        alone = copy(self)
        alone.tally, alone.table, alone.field = Tally(), CsvText(), replace(self.field, cells={})
        alone._add(some)
        return _Lot(alone.table.data, alone.tally, alone.field.cells)

    def _add(self, some: Chunk) -> None:
        bodies, estimates = completed(some.bodies, self.plan.measures, self.plan.known, self.plan.wearers)
        for found in estimates:
            self.tally.estimated[found.name] += int(found.where.sum())
        told = list(some.faults)
        if some.figures:
            bodies = with_figures(bodies, some.figures, estimates, told)
        faults = np.array(told, dtype=object)
        for name in self.plan.measures:
            values = bodies.values.get(name)
            lacking = np.ones(len(bodies), dtype=bool) if values is None else ~np.isfinite(values)
            faults[lacking & (faults == "")] = f"`{name}` is missing"
        good = np.flatnonzero(faults == "")
        self.tally.bodies += len(bodies)
        if self._has_girths(bodies):
            self.tally.near += int(served(self.chart, bodies, GIRTHS, WHOLE).sum())
        rows: list[tuple[object, ...]] = [
            (name, "no", "no", fault) for name, fault in zip(bodies.names, faults, strict=True)
        ]
        self.tally.reasons.update(_kind(str(fault)) for fault in faults if fault)
        if good.size:
            for k, row in zip(good, self._drafted(bodies.at(good)), strict=True):
                rows[k] = row
        self.table.add(rows)

    def _has_girths(self, bodies: Bodies) -> bool:
        return all(girth in values for girth in GIRTHS for values in (self.chart.values, bodies.values))

    def _drafted(self, bodies: Bodies) -> list[tuple[object, ...]]:
        outcome, garment = drawn(self.plan, bodies)
        verdict = verdicts(outcome, garment)
        fit = choose(self.sizes, garment)
        across, down = (asked.share for asked in least(garment, needed_stretches(garment)))
        self._count(verdict, fit)
        why = np.where(verdict.undrafted == "", verdict.unworn, verdict.undrafted)
        self.tally.reasons.update(_kind(str(reason)) for reason in why if reason)
        drafted, worn = _yes(verdict.drafted), _yes(verdict.worn)
        columns: list[Iterable[object]] = [bodies.names, drafted, worn, why.tolist(), *self._sizes(fit, len(bodies))]
        if fit:
            self.field.add(garment, fit.served & verdict.drafted)
        rows = list(zip(*columns, _percents(across), _percents(down), strict=True))
        for k in np.flatnonzero(~verdict.drafted):
            rows[k] = rows[k][:4]  # the figures of a body that could not be drafted mean nothing
        return rows

    def _count(self, verdict: Verdicts, fit: SizeFit | None) -> None:
        self.tally.drafted += int(verdict.drafted.sum())
        self.tally.worn += int(verdict.worn.sum())
        if fit:
            self.tally.served += int((fit.served & verdict.drafted).sum())
            self.tally.sizes.update(self._names(fit.overall[verdict.drafted]))

    def _names(self, sizes: Ints) -> list[str]:
        names = [*self.sizes.sizes, "none"]
        return [names[k] for k in sizes.tolist()]

    def _sizes(self, fit: SizeFit | None, count: int) -> Iterable[Iterable[object]]:
        """The size over all, if the chart serves, and for each level its own best size and the ease in the first."""
        if fit is None:
            return [[""] * count, [""] * count]
        found: list[Iterable[object]] = [self._names(fit.overall), _yes(fit.served)]
        worn = np.where(fit.overall >= 0, fit.overall, len(self.sizes.sizes) - 1)
        for level in range(len(fit.names)):
            ease = fit.ease[np.arange(count), worn, level]
            found += [self._names(fit.nearest[:, level]), [f"{mm / 10:.1f}" for mm in ease.tolist()]]
        return found

    def _summary(self) -> str:
        tally = self.tally
        share = max(tally.bodies, 1)
        rows = [(what, str(count), f"{100 * count / share:.1f} %") for what, count in (
            ("bodies", tally.bodies), ("drafted made to measure", tally.drafted), ("can be worn so", tally.worn),
            ("served by a size of the chart", tally.served),
            ("a size within a step at bust, waist and hip", tally.near))]  # fmt: skip
        rows += [(f"size {name}", str(tally.sizes[name]), f"{100 * tally.sizes[name] / share:.1f} %")
                 for name in (*self.sizes.sizes, "none") if tally.sizes[name]]  # fmt: skip
        rows += [(reason, str(count), "") for reason, count in tally.reasons.most_common(REASONS)]
        estimated = [f"{name} ({count})" for name, count in tally.estimated.items()]
        said = f"\n\nestimated, not measured: {', '.join(estimated)}" if estimated else ""
        return in_columns(rows) + said


def _kind(reason: str) -> str:
    """A reason without its figures, so that like reasons are counted together."""
    reason = reason.rpartition(OFF)[0] if reason.startswith("does not hold") else reason
    return reason.partition(": ")[0] if ", to " in reason or "cannot" in reason else reason


def _yes(mask: np.ndarray) -> list[str]:
    return ["yes" if there else "no" for there in mask.tolist()]


def _percents(shares: Floats) -> list[str]:
    return [f"{100 * share:.1f}" for share in shares.tolist()]
