"""What testers' replies say, for a terminal, as a table and for a program."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from draft.base.as_data import Data, mm
from draft.base.csvtext import Row, csv_text
from draft.base.naming import plain
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.base.units import rounded
from draft.drafting.drafting import Drafted
from draft.release.figures_behind import FigureBehind, figures_behind, look_at
from draft.release.replies_laid import Felt, Finding, RepliesLaid

_WORDS = {
    "room": {"less": "too tight", "right": "right", "more": "too wide"},
    "length": {"less": "too short", "right": "right", "more": "too long"},
}


@dataclass(frozen=True)
class RepliesTold:
    """Replies laid over a draft, with the figures to look at for each level that testers agree to change."""

    drafted: Drafted
    laid: RepliesLaid
    figures: Mapping[str, Sequence[FigureBehind]]


def with_figures(drafted: Drafted, laid: RepliesLaid) -> RepliesTold:
    """The same with the figures of the file behind what testers want otherwise, found on the size of most replies."""
    wanted = {one.name: one.way == "more" for one in laid.findings if one.agreed and one.way != "right"}
    if not wanted:
        return RepliesTold(drafted, laid, {})
    sizes = [reply.size for reply in laid.replies]
    figures = figures_behind(drafted, max(drafted.garment.sizes, key=sizes.count))
    return RepliesTold(drafted, laid, {name: look_at(name, less, figures) for name, less in wanted.items()})


# ---- for a terminal -------------------------------------------------------------------------------------------------


def replies_report(told: RepliesTold) -> str:
    """All of it in lines: what each size felt, what testers agree on, which figures to look at."""
    laid, plan = told.laid, told.drafted.plan
    sizes = [reply.size for reply in laid.replies]
    counted = ", ".join(f"{sizes.count(size)} of {size}" for size in told.drafted.garment.sizes if size in sizes)
    version = f" {plan.version}" if plan.version else ""
    lines = [f"{plan.title}{version}: {_many(len(laid.replies), 'reply', 'replies')}, {counted}", ""]
    lines += [in_columns(_table(laid.felt)), "", "on what they agree:"]
    agreed = [one for one in laid.findings if one.agreed]
    for one in agreed:
        lines += [f"  {_said(one)}", *(f"    {line}" for line in _figures(one, told))]
    open_ones = [one for one in laid.findings if not one.agreed]
    lines += [] if agreed else ["  on nothing yet"]
    lines += ["not yet:", *(f"  {_said(one)}" for one in open_ones)] if open_ones else []
    if laid.pulls:
        pulls = ", ".join(f"{plain(name)} {count}" for name, count in laid.pulls)
        lines.append(f"where it pulls, of {len(laid.replies)}: {pulls}")
    for reply in laid.replies:
        lines += [f"elsewhere ({reply.tester or reply.where}): {reply.elsewhere}"] if reply.elsewhere else []
    yes, no = laid.again
    lines += [f"would sew it again: {yes} of {yes + no}"] if yes + no else []
    lines += [f"{reply.tester or reply.where}, {reply.size}: {reply.words}" for reply in laid.replies if reply.words]
    return "\n".join(lines)


def _many(count: int, one: str, more: str) -> str:
    return f"{count} {one if count == 1 else more}"


def _table(felt: Sequence[Felt]) -> list[Sequence[str]]:
    rows: list[Sequence[str]] = [("", "size", "asked cm", "had cm", "too little", "right", "too much")]
    for one in felt:
        had = _span(one.had) if one.sort == "room" else ""
        name = plain(one.name) if one.sort == "length" else f"{plain(one.name)}, room"
        counts = (sum(one.counts[:2]), one.counts[2], sum(one.counts[3:]))
        rows.append((name, one.size, _cm(one.asked), had, *(str(count or "-") for count in counts)))
    return rows


def _span(values: Iterable[float]) -> str:
    """`4.1`, `4.1 to 7.2`, or nothing where nobody said."""
    known = [value for value in values if math.isfinite(value)]
    if not known:
        return "?"
    low, high = _cm(min(known)), _cm(max(known))
    return low if low == high else f"{low} to {high}"


def _cm(mm: float) -> str:
    return rounded(mm / 10, 1)


def _said(one: Finding) -> str:
    low, high = (f"{100 * share:.0f}" for share in one.interval)
    within = "" if not one.sizes else f" in {' – '.join(dict.fromkeys(one.sizes))}"
    head = f"{plain(one.name)}{within}: {_WORDS[one.sort][one.way]} for {one.count} of {one.of}"
    head += f" (of all such people {low} to {high} %)"
    if one.sort == "length" or not one.agreed:
        return head
    said = [f"room asked for {_span(one.asked)} cm"]
    said += [f"for whom it was right had {_span(one.right_had)} cm"] if one.right_had else []
    said += [f"the others {_span(one.others_had)} cm"] if one.others_had else []
    return f"{head}; {', '.join(said)}"


def _figures(one: Finding, told: RepliesTold) -> list[str]:
    """Which figures to look at, with what a step more of each moves."""
    lines = []
    own = told.drafted.planned.texts.main.span.source.name if told.drafted.planned else ""
    for figure in told.figures.get(one.name, ()):
        less = (figure.moves[one.name] > 0) == (one.way == "more")
        turned = {name: -far if less else far for name, far in figure.moves.items()}
        moved = {name: far for name, far in turned.items() if abs(far) >= 1.0 and name != one.name}
        also = ", ".join(f"{plain(name)} by {_signed(far)}" for name, far in moved.items()) or "nothing else"
        text = " ".join(figure.span.text.split())
        line = (
            f"look at `{figure.name}` ({figure.span}, {text}): {figure.step} {'less' if less else 'more'} moves it by "
        )
        lines.append(f"{line}{_signed(turned[one.name])}, and {also}")
        if figure.span.source.name != own:
            block = "style" if figure.is_style else "let"
            lines.append(f"  a line `{figure.name}` of your own under `{block}` takes its place")
    return lines


def _signed(mm: float) -> str:
    return f"{mm / 10:+.1f} cm"


# ---- as a table, and for a program ----------------------------------------------------------------------------------


def replies_files(told: RepliesTold) -> dict[str, bytes]:
    """`felt.csv`: a row for each level, length and size."""
    return {"felt.csv": csv_text(_rows(told.laid.felt))}


def _rows(felt: Sequence[Felt]) -> Iterable[Row]:
    yield ("what", "name", "size", "asked mm", "had mm, least", "had mm, most", "replies", "1", "2", "3", "4", "5")
    for one in felt:
        known = [had for had in one.had if math.isfinite(had)] if one.sort == "room" else []
        ends = [rounded(end, 1) for end in (min(known), max(known))] if known else ["", ""]
        yield (one.sort, one.name, one.size, rounded(one.asked, 1), *ends, len(one.steps), *one.counts)


def replies_data(told: RepliesTold) -> Data:
    """The same facts for a program: lengths in mm, shares from 0 to 1; nobody's name, measures or words."""
    laid, plan = told.laid, told.drafted.plan
    yes, no = laid.again
    return {
        "pattern": plan.name, "version": plan.version, "replies": len(laid.replies),
        "felt": [
            {"what": one.sort, "name": one.name, "size": one.size, "asked_mm": mm(one.asked),
             "had_mm": [mm(had) for had in one.had if math.isfinite(had)] if one.sort == "room" else [],
             "steps": list(one.counts)}
            for one in laid.felt
        ],
        "findings": [_finding(one, told) for one in laid.findings],
        "pulls": dict(laid.pulls), "again": {"yes": yes, "no": no},
    }  # fmt: skip


def _finding(one: Finding, told: RepliesTold) -> dict[str, object]:
    figures = [
        {"name": figure.name, "file": Path(figure.span.source.name).name,
         "line": figure.span.source.place(figure.span.start)[0], "text": " ".join(figure.span.text.split()),
         "step": figure.step, "moves_mm": {name: mm(far) for name, far in figure.moves.items()}}
        for figure in told.figures.get(one.name, ())
    ]  # fmt: skip
    return {
        "what": one.sort, "name": one.name, "felt": one.way, "count": one.count, "of": one.of, "agreed": one.agreed,
        "sizes": list(dict.fromkeys(one.sizes)),
        "interval": [round(share, 3) for share in one.interval], "look_at": figures,
    }  # fmt: skip
