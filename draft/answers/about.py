"""What a pattern needs and offers, and what a file of templates holds."""

from __future__ import annotations

from draft.base.text_columns import in_columns
from draft.bodies.measures import BodyMeasure
from draft.bodies.own_measure import OwnMeasure
from draft.bodies.wearers import WOMEN
from draft.garment.garment import ClothOf, CutOf, PieceOf
from draft.language import tree
from draft.plan.plan import Plan, Value


def about_report(plan: Plan) -> str:
    """The measures that a pattern needs, the cloth that suits it, the styles that it offers, and its pieces."""
    needs = [(f"  {name}", _taken(plan.known[name])) for name in plan.measures]
    cloth = [row for named in plan.cloths for row in _of_cloth(plan, named)]
    cloth += [(f"  {p.name}", p.set_to, p.limits, p.words) for p in plan.properties if "." not in p.name]
    offers = [(f"  {s.name}", s.set_to, s.limits, s.words) for s in plan.styles]
    pieces = [(f"  {piece.title}", _cut(piece)) for piece in plan.pieces]
    title = f"{plan.title}, by {plan.maker}" if plan.maker else plan.title
    title += f", version {plan.version}" if plan.version else ""
    charts = [(f"  {name or 'the usual one'}", words) for name, words in plan.charts if len(plan.charts) > 1]
    sections = (
        ("measures" if plan.wearers is WOMEN else f"measures, for {plan.wearers.name}", needs),
        ("cloth: now, what suits", cloth),
        ("styles: now, limits", offers),
        ("size charts, asked for by `--chart NAME`", charts),
        ("pieces", pieces),
    )
    return "\n\n".join([title, *(f"{heading}\n{in_columns(rows)}" for heading, rows in sections if rows)])


def _of_cloth(plan: Plan, cloth: ClothOf[Value]) -> list[tuple[str, ...]]:
    """One of several cloths: what it is, and what the pattern leans on of it."""
    own = [p for p in plan.properties if p.name.startswith(f"{cloth.name}.")]
    return [(f"  {cloth.name}", "", "", cloth.words), *((f"  {p.name}", p.set_to, p.limits, p.words) for p in own)]


def _taken(measure: BodyMeasure) -> str:
    """How a measure is taken; of the pattern's own also what it is about."""
    own = measure.words if isinstance(measure, OwnMeasure) else ""
    return f"{measure.how} (about {own}, where it is not given)" if own else measure.how


def templates_report(file: tree.File) -> str:
    """The templates of a file: what each is, and what it is given."""
    name = file.span.source.name
    parts = [f'{name}: templates, for a pattern that says `uses "{name}"`']
    for template in file.templates:
        sentence = [f"  {template.words}"] if template.words else []
        rows = [(f"    {i.name}", i.what, _default(i), i.words) for i in template.body.inputs]
        made = f"  piece NAME is {template.name}"
        parts.append("\n".join([template.name, *sentence, made, *([in_columns(rows)] if rows else [])]))
    return "\n\n".join(parts)


def _default(wanted: tree.Input) -> str:
    return f"= {wanted.default.span.text}" if wanted.default else "to be given"


def _cut(piece: PieceOf[Value, Value]) -> str:
    cuts = ", ".join(" ".join(filter(None, (str(cut.count), _of(cut)))) for cut in piece.all_cuts)
    return f"cut {cuts} on the fold" if piece.on_fold else f"cut {cuts}"


def _of(cut: CutOf[Value]) -> str:
    return " ".join([*([f"of {cut.cloth}"] if cut.cloth else []), *([f"as {cut.layer}"] if cut.layer else [])])
