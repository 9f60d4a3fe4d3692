"""The arrow from text to plan: `plan_texts` takes a pattern with what it uses and checks all of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from draft.base.notes import Note, Problems, Span, error, stop_if_errors
from draft.base.units import Kind
from draft.bodies.measures import BodyMeasure, unknown_measure
from draft.bodies.own_measure import OwnMeasure
from draft.bodies.wearers import WOMEN, wearers_called
from draft.fabrics.fabric import Fabric
from draft.fabrics.properties import PROPERTIES
from draft.garment.garment import FinishedOf
from draft.language import tree
from draft.plan import solves
from draft.plan.cloths import cloth_properties as cloths
from draft.plan.cloths.several_cloths import never_cut
from draft.plan.files.layers import layers, put_together
from draft.plan.filling import Pieces
from draft.plan.head import of_changes, of_charts, of_edition, of_wearers, said, told_changes
from draft.plan.laid_flat import laid_flat
from draft.plan.library import Texts
from draft.plan.most_points import too_many_points
from draft.plan.names import Names, twice
from draft.plan.notions import notions
from draft.plan.own_booklet import own_booklet
from draft.plan.own_measures import known_measure, own_measure, with_estimate
from draft.plan.plan import Plan, Step, Value, broken, constant, is_broken
from draft.plan.scopes import is_hidden
from draft.plan.sewn.edge_partings import with_partings
from draft.plan.sewn.facing import is_faced
from draft.plan.sewn.joins import joins
from draft.plan.sewn.patches import patches
from draft.plan.styles import style_settings
from draft.plan.styles.branches import as_written
from draft.plan.styles.never_so import never_so
from draft.plan.values import Values
from draft.words.word import QUANTITIES, Kinds, one

_LET: Kinds = QUANTITIES | {Kind.DIRECTION}
HALF_INCH = 12.7  # the allowance where a pattern names none


def plan_texts(texts: Texts, given: Mapping[str, str], fabric: Fabric | None = None) -> Plan:
    """The plan of texts already read, with styles set as in `given`, for a cloth that the reader has.

    Raises `Problems` with all mistakes found.
    """
    try:
        return _Maker(texts, given, fabric).plan()
    except RecursionError:
        raise Problems([error("the definitions of this pattern lean on one another too many deep")]) from None


class _Maker:
    def __init__(self, texts: Texts, given: Mapping[str, str], fabric: Fabric | None) -> None:
        self.texts = texts
        self.beside = texts.beside
        self.given = given
        self.fabric = fabric
        self.cloth: dict[str, tree.Literal] = {}
        self.names = Names()
        self.notes = self.names.notes
        self.names.scopes.open |= {file.span.source for file in texts.templates} - {texts.main.span.source}
        scopes = self.names.scopes
        whole = put_together(layers(texts, scopes, self.notes), given, scopes, self.notes)
        self.main, self.written, self.branches = whole.settled, whole.written, whole.branches
        self.names.left_out = self.branches.gone
        self.notes += never_so(self.written)
        self.values = Values(self.names, self.branches.settings)
        self.names.untaken = {line.name: f for f in texts.templates for line in (*f.values, *f.styles)}
        self.names.pieces = {piece.name for piece in self.written.pieces}
        self.names.always = tuple(line.span for line in (*self.written.values, *self.written.finished))
        self.names.own = {line.name for line in (*self.written.values, *self.written.styles)}
        templates: dict[str, tree.Template] = {}
        used = [template for file in texts.templates for template in file.templates if self.branches.there(template)]
        for template in (*used, *self.main.templates):
            self._add_template(templates, template)
        self.pieces = Pieces(self.values, templates, self.branches)
        self.own: list[tuple[tree.OwnMeasure | tree.Measure, OwnMeasure]] = []

    def _add_template(self, templates: dict[str, tree.Template], template: tree.Template) -> None:
        first = templates.setdefault(template.name, template)
        if first is not template:
            related = [(first.name_span, "it is first defined here")]
            fact = f"there are two templates called `{template.name}`"
            fix = "put its lines under the first one, and take this heading out"
            self.notes.append(error(fact, template.name_span, fix, related=related))

    def plan(self) -> Plan:
        """The plan, once no mistake is left."""
        head, main = self._head(), self.main
        self.notes += (*of_charts(head), *of_edition(head), *of_wearers(head), *of_changes(head))
        self._declare()
        stop_if_errors(self.notes)  # one wrong name would be reported again wherever it is used
        self.values.all_steps()
        allowance = self._allowance(head)
        self._cloth_allowances()
        pieces, blocks = self.pieces.plans(allowance), self.pieces.drafts(allowance)
        for named in ((*main.joins, *main.patches), main.finished):
            self.notes += twice((line.name, line.name_span) for line in named)
        lines = self.pieces.rejoined(main.joins)
        pieces = with_partings(self.values, lines, pieces)
        sewn = joins(self.values, lines, pieces)
        written = self.pieces.written
        planned = tuple(
            replace(one, faced=is_faced(one, written, self.values.edges), parted=self.pieces.are_parted(one))
            for one in sewn
        )
        unbroken = [piece for piece in pieces if piece.edges and not is_broken(piece)]
        declared = {piece.name for piece in self.written.pieces}
        onto = tuple(patches(main.patches, unbroken, declared, self.notes))
        measured = tuple(self._finished(written) for written in main.finished)
        promised = tuple(solves.relation(self.values, written) for written in main.checks)
        asked = [solves.solve(self.values, written) for written in main.solves]
        own = own_booklet(main, self.written, unbroken, self.beside, self.notes)
        bought = notions(self.values, main, unbroken)
        own_measures = self._own_measures()
        stop_if_errors(self.notes)
        closed, ordered = solves.close(self.values, asked)
        stop_if_errors(self.notes)
        return Plan(
            name=head.name,
            title=said(head, "title") or head.name.replace("_", " "),
            maker=said(head, "maker"),
            version=said(head, "version"),
            changed=told_changes(head),
            wearers=wearers_called(said(head, "wearer")) or WOMEN,
            charts=tuple((one.name, one.words) for one in head.settings if isinstance(one, tree.Chart)),
            measures=tuple(measure.name for measure in main.measures),
            styles=tuple(style_settings.style_described(s, self.given) for s in main.styles if not is_hidden(s.name)),
            steps=ordered,
            solves=closed,
            pieces=tuple(pieces),
            joins=planned,
            finished=measured,
            checks=promised,
            cloth=cloths.cloth(self.cloth, self.fabric),
            properties=(*cloths.cloth_described(main.properties, self.cloth), *self.values.cloths.described()),
            cloths=tuple(self.values.cloths.planned(pieces, self.fabric)),
            notes=tuple(self.notes),
            booklet=own,
            notions=bought,
            patches=onto,
            blocks=tuple(block for block in blocks if block.edges),
            moved_from={p.name: p.origin.draft.text for p in main.pieces if p.origin and p.body.moves},
            own_measures=own_measures,
        )

    def _head(self) -> tree.Pattern:
        """The pattern's own block, or `Problems` where there is none."""
        if not self.main.patterns:
            name = self.main.span.source.name
            fix = "a pattern begins with a line such as `pattern tunic`; a file of templates is used by one"
            raise Problems([error(f"`{name}` holds no pattern", None, fix), *self.notes])
        for second in self.main.patterns[1:]:
            self.notes.append(error("a file holds one pattern", second.span, "put this one into a file of its own"))
        if not self.written.pieces:
            self.notes.append(
                error("this pattern has no pieces", self.main.patterns[0].name_span, "add a `piece` block")
            )
        head = self.main.patterns[0]
        once = [setting for setting in head.settings if setting.word not in ("uses", "chart", "changed")]
        self.notes += twice((setting.word, setting.span) for setting in once)
        return head

    def _allowance(self, head: tree.Pattern) -> Value:
        for setting in head.settings:
            if setting.word == "allowance" and not isinstance(setting.value, str):
                return self.values.compile(setting.value, None, one(Kind.LENGTH))
        return constant(head.span, Kind.LENGTH, HALF_INCH)

    def _cloth_allowances(self) -> None:
        for name, cloth in self.values.cloths.written.items():
            for setting in [line for line in cloth.allowances if not isinstance(line.value, str)]:
                found = self.values.compile(setting.value, None, one(Kind.LENGTH))  # type: ignore[arg-type]
                self.values.cloths.allowances[name] = found

    # ---- declaring

    def _declare(self) -> None:
        for measure in self.main.measures:
            self._measure(measure)
        self._cloths()
        for style in self.main.styles:
            self._style(style)
        there = {style.name for style in self.main.styles}
        seen = tuple(style for style in self.main.styles if not is_hidden(style.name))
        missing = [style.name for style in self.written.styles if style.name not in there]
        gone = {name: as_written(self.branches.gone[name]) for name in missing if name in self.branches.gone}
        self.notes += style_settings.unknown_styles(seen, self.given, gone)
        for line in self.main.values:
            self._add(line, _lazily(self._definition, line))
        for unknown in [u for s in self.main.solves for u in s.unknowns]:
            self._add(unknown, _lazily(solves.unknown_step, self.values, unknown))
        self.pieces.declare_all(self.main.pieces)
        self.notes += too_many_points(self.pieces.filled.values())

    def _cloths(self) -> None:
        several = self.values.cloths
        several.settle(self.main, self.fabric, self.notes)
        self.notes += never_cut(self.written, self.texts.templates)
        first = next(iter(several.written), None)
        self.cloth = cloths.settle_cloth(self.main.properties, self.fabric, self.notes)
        for prop in self.main.properties:
            if prop.name in self.cloth and PROPERTIES[prop.name].drafts:
                self._add(prop, _lazily(self._property, prop, prop.name, self.cloth))
        for name, cloth in several.written.items():
            for prop in cloth.properties:
                full, known = f"{name}.{prop.name}", several.settled[name]
                if prop.name in known and PROPERTIES[prop.name].drafts:
                    self.names.declare(full, prop, _lazily(self._property, prop, full, known))
        self.cloth = several.settled[first] if first else self.cloth

    def _add(self, named: tree.Named, make: Callable[[], Step]) -> None:
        self.names.declare(named.name, named, make)

    def _own_measures(self) -> tuple[OwnMeasure, ...]:
        names = {measure.name for measure in self.main.measures}
        return tuple(with_estimate(self.values, written, measure, names) for written, measure in self.own)

    def _measure(self, measure: tree.Measure | tree.OwnMeasure) -> None:
        if isinstance(measure, tree.OwnMeasure):
            known: BodyMeasure | None = own_measure(self.values, measure)
            self.own += [(measure, known)] if isinstance(known, OwnMeasure) else []
        else:
            known = known_measure(measure)
            self.own += [(measure, known)] if isinstance(known, OwnMeasure) else []
            if not known:
                self.notes.append(_not_known(measure))
        if not known:
            return
        step = Step(
            measure.span, measure.name, known.kind, frozenset(), lambda trace: trace.values[measure.name], known.how
        )
        self._add(measure, lambda: step)

    def _style(self, style: tree.StyleRange | tree.StyleChoice) -> None:
        if isinstance(style, tree.StyleChoice):
            step = Step(style.span, style.name, Kind.CHOICE, frozenset(), lambda trace: np.zeros(trace.count))
            self._add(style, lambda: step)
            return
        literal = style_settings.settle_range(style, self.given, self.notes)
        self._add(style, lambda: self._set(style.name, style.span, literal, style.words))

    def _property(self, line: tree.Property, full: str, known: Mapping[str, tree.Literal]) -> Step:
        return self._set(full, line.span, known[line.name], line.words or PROPERTIES[line.name].how)

    def _definition(self, line: tree.Definition) -> Step:
        return self._set(line.name, line.span, line.value, line.words, _LET)

    def _set(self, name: str, span: Span, expr: tree.Expr | None, words: str, wanted: Kinds = QUANTITIES) -> Step:
        value = self.values.compile(expr, None, wanted) if expr else broken(span)
        return Step.of(span, name, value, words)

    def _finished(self, written: tree.Finished) -> FinishedOf[Value]:
        value = self.values.compile(written.value, None, one(Kind.LENGTH))
        over = self.values.compile_any(written.over, None, one(Kind.LENGTH))
        passing = [self.values.compile(body, None, one(Kind.LENGTH)) for body in written.passing]
        going = self.values.compile_any(written.going, None, one(Kind.DIRECTION))
        across = constant(written.span, Kind.NUMBER, 1.0 if written.around else 0.0)
        if going:
            across = going.then(Kind.NUMBER, lambda way: np.asarray(way[:, 0] ** 2))
        passed = tuple((_body(body), body) for body in passing)
        worn = (_body(over), over) if over else None
        flat = self.values.compile_any(laid_flat(written.value, self.values), None, one(Kind.LENGTH))
        return FinishedOf(written.name, written.around, value, written.words, written.span, worn, passed, across, flat)


def _not_known(measure: tree.Measure) -> Note:
    """What to do about a name that no body measure has: the one that is meant, or a line that declares it."""
    note = unknown_measure(measure.name, measure.name_span)
    own = f'declare it on a line of its own: `{measure.name} from 20 cm to 90 cm "how it is taken"`'
    return note if note.hints else replace(note, hints=(own,))


def _body(value: Value) -> str:
    """What of the body a finished measurement names, in words."""
    return value.span.text.replace("_", " ")


def _lazily(make: Callable[..., Step], *args: object) -> Callable[[], Step]:
    return lambda: make(*args)
