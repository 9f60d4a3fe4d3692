"""What the command prints: tables in plain text."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import in_centimetres, in_words
from draft.bodies.estimates import Estimate
from draft.bodies.measures import MEASURES
from draft.checks.seam_lengths import fits
from draft.drafting.drafting import Drafted
from draft.garment.garment import Garment, SidePart
from draft.language import tree
from draft.plan.plan import PiecePlan, Plan
from draft.seams.sections import sections
from draft.seams.trueing import TELLING, to_true
from draft.seams.walk import SeamEnd, walk_seams


def seam_report(garment: Garment) -> str:
    """Every join with its lengths over all bodies, and the greatest miss."""
    rows: list[Sequence[str]] = [("join", "first side", "second side", "first cm", "second cm", "ratio", "off mm", "")]
    for walked in walk_seams(garment):
        join = walked.join
        worst = float(np.max(np.abs(walked.difference)))
        stretched = "" if join.ratio is None else f"x {1 / float(join.ratio[0]):.2f}"
        rows.append(
            (
                join.name.replace("_", " "),
                _side(join.first),
                _side(join.second),
                _span(walked.first / 10),
                _span(walked.second / 10),
                stretched,
                f"{worst:.2f}",
                "fits" if fits(walked) else "does not fit",
            )
        )
    return table(rows)


def sections_report(garment: Garment) -> str:
    """Every join from notch to notch: the lengths over all bodies, and by how much the first side is longer there."""
    rows: list[Sequence[str]] = [("join", "from", "to", "first cm", "second cm", "first longer by mm", "of second")]
    for section in sections(garment):
        second = np.maximum(section.second, 1e-9)
        rows.append(
            (
                section.join.name.replace("_", " "),
                section.begins,
                section.ends,
                _span(section.first / 10),
                _span(section.second / 10),
                _span(section.ease),
                _span(section.ease / second * 100) + " %",
            )
        )
    return table(rows)


def true_report(garment: Garment, over: float) -> str:
    """Every end of a join where the outlines do not run on, what blending them over so many mm moves, and the words."""
    found = list(to_true(garment, over))
    if not found:
        return f"all outlines run on across their seams, within {TELLING} deg"
    rows: list[Sequence[str]] = [("join", "end", "edges that meet there", "off deg", "would move mm")]
    for trueing in found:
        corner = trueing.seam_end
        sides = zip((corner.join.first[0], corner.join.second[0]), corner.neighbours, strict=True)
        edges = dict.fromkeys(f"{part.piece}.{neighbour}" for part, neighbour in sides)
        shape = "peak" if corner.kink[np.argmax(np.abs(corner.kink))] < 0 else "hollow"
        kink = f"{_worst(corner.kink, garment)} {shape}"
        moved = " and ".join(_worst(move, garment) for move, _ in zip(trueing.moved, edges, strict=False))
        rows.append((corner.join.name.replace("_", " "), _end(corner), " and ".join(edges), kink, moved))
    joins = dict.fromkeys(trueing.seam_end.join.span for trueing in found)
    written = [f"    {_with_option(span.text, f'trued over {in_centimetres(over)}')}" for span in joins]
    return "\n".join([table(rows), "", "to have them blended, write under `join`:", *written])


def _end(corner: SeamEnd) -> str:
    return "start" if corner.at_start else "end"


def _worst(values: Floats, garment: Garment) -> str:
    worst = int(np.argmax(np.abs(values)))
    return f"{abs(values[worst]):.1f} ({garment.sizes[worst]})"


def _with_option(seam: str, option: str) -> str:
    """A join as it is written, with one more option, which stands before its sentence."""
    rows = (row.partition("#")[0].strip() for row in seam.split("\n"))  # on one line, however many it has
    line, quote, sentence = " ".join(row for row in rows if row).partition('"')
    return f"{line.rstrip()}, {option}" + (f"   {quote}{sentence}" if quote else "")


def chosen_report(drafted: Drafted) -> str:
    """What the solver chose for each body, where it chose anything."""
    if not drafted.garment.chosen:
        return ""
    kinds = {step.name: step.kind for step in drafted.plan.steps}
    sizes = drafted.garment.sizes
    rows: list[Sequence[str]] = [("solved", *sizes)]
    for name, values in drafted.garment.chosen:
        rows.append((name, *(in_words(float(value), kinds[name]) for value in values)))
    return table(rows) if len(sizes) <= 12 else ""


def estimates_report(estimates: Sequence[Estimate]) -> str:
    """What was not measured: the figure that is used instead, its spread, and what it follows from."""
    rows = [(f"  {e.name}", *e.in_words().split(", "), e.source) for e in estimates]
    most = "estimated, not measured: nineteen women of twenty lie within the spread; measure what you can"
    return f"{most}\n{table(rows)}"


def about_report(plan: Plan) -> str:
    """The measures that a pattern needs, the cloth that suits it, the styles that it offers, and its pieces."""
    needs = [(f"  {name}", MEASURES[name].how) for name in plan.measures]
    cloth = [(f"  {p.name}", p.set_to, p.limits, p.words) for p in plan.properties]
    offers = [(f"  {s.name}", s.set_to, s.limits, s.words) for s in plan.styles]
    pieces = [(f"  {piece.title}", _cut(piece)) for piece in plan.pieces]
    title = f"{plan.title}, by {plan.maker}" if plan.maker else plan.title
    sections = (
        ("measures", needs),
        ("cloth: now, what suits", cloth),
        ("styles: now, limits", offers),
        ("pieces", pieces),
    )
    return "\n\n".join([title, *(f"{heading}\n{table(rows)}" for heading, rows in sections if rows)])


def templates_report(file: tree.File) -> str:
    """The templates of a file: what each is, and what it is given."""
    name = file.span.source.name
    parts = [f'{name}: templates, for a pattern that says `uses "{name}"`']
    for template in file.templates:
        sentence = [f"  {template.words}"] if template.words else []
        rows = [(f"    {i.name}", i.kind.value, _default(i), i.words) for i in template.body.inputs]
        made = f"  piece NAME is {template.name}"
        parts.append("\n".join([template.name, *sentence, made, *([table(rows)] if rows else [])]))
    return "\n\n".join(parts)


def _default(wanted: tree.Input) -> str:
    return f"= {wanted.default.span.text}" if wanted.default else "to be given"


def _cut(piece: PiecePlan) -> str:
    return f"cut {piece.cut} on the fold" if any(edge.on_fold for edge in piece.edges) else f"cut {piece.cut}"


def _span(values: Floats) -> str:
    low, high = (f"{round(float(end), 1) + 0.0:.1f}" for end in (values.min(), values.max()))  # never -0.0
    return low if low == high else f"{low} to {high}"


def _side(parts: tuple[SidePart, ...]) -> str:
    return " + ".join(f"{part.piece}.{part.edge}" for part in parts)


def table(rows: Sequence[Sequence[str]]) -> str:
    """Rows of cells as columns of plain text."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in rows]
    return "\n".join(line.rstrip() for line in lines)
