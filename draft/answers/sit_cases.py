"""Which garments are looked at on whose forms: a size on its own form or on the ends of whom it serves, a person's own
draft, sizes of the chart on her form, another cloth, style or version beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Literal, TypeAlias

import numpy as np

from draft.answers.as_measured import as_measured
from draft.answers.size_tried import sizes_for
from draft.base.notes import Problems, error, stop_if_errors
from draft.base.record import dataclass
from draft.bodies.beside_a_size import TRAITS
from draft.bodies.bodies import Bodies
from draft.bodies.left_right import two_bodies
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.paper.drawing.wording import Wording, capitalised
from draft.sitting.hand_stretch import hand_stretch
from draft.sitting.sitting_of import Subject

MOST = 12
"""Garments that are dressed in one go: each takes half a minute."""
_SERVED = ("a fuller waist", "fuller hips", "slimmer hips", "a fuller bust", "a smaller bust")
"""The traits at whose ends a size is looked at: what the main girths differ by."""


Whose: TypeAlias = Literal["not_you", "not_anyone", "not_anyone_near"]
"""What every sheet says of its form: of somebody's measures, of a chart's, or of some near those."""


@dataclass(frozen=True)
class Otherwise:
    """What is looked at beside what is asked for: another version of the pattern, other styles, another cloth."""

    pattern: str | None = None
    styles: Mapping[str, str] | None = None
    fabric: str | None = None

    @property
    def anything(self) -> bool:
        """Whether there is anything beside."""
        return bool(self.pattern or self.styles or self.fabric)


@dataclass(frozen=True, eq=False)
class Case:
    """One garment on one form: a name for its files, the lines over its sheet, and what is dressed."""

    name: str
    title: str
    subtitle: str
    subject: Subject
    whose: Whose = "not_you"
    size: str = ""
    trait: str = ""
    """By which trait the form differs from that of the size, a key in the section `sit` of a language."""


def cases_of(
    request: Request,
    wording: Wording,
    try_on: Sequence[str] = (),
    otherwise: Otherwise | None = None,
    ends: bool = False,
) -> tuple[list[Case], Drafted]:
    """The cases in order, and what was drafted first. Raises `Problems` for mistakes, and where there are too many."""
    drafted = draft_and_check(request)
    found = own_cases(drafted, wording)
    if try_on:
        found += _tried_on(request, drafted, try_on, wording)
    if ends:
        found += [case for k in range(len(drafted.bodies)) for case in _ends(drafted, k, wording)]
    if otherwise is not None and otherwise.anything:
        other = _other_request(request, otherwise)
        found += _named_apart(own_cases(_sound(other), wording), otherwise, wording)
    if len(found) > MOST:
        fix = "choose fewer sizes with `--sizes M`"
        raise Problems([error(f"{len(found)} garments would be dressed, and each takes half a minute", None, fix)])
    return found, drafted


def same_form(one: Case, other: Case) -> bool:
    """Whether two garments are on the same form: of the same measures, all of them."""
    first, second = one.subject.bodies.values, other.subject.bodies.values
    if first.keys() != second.keys() or one.subject.wearers is not other.subject.wearers:
        return False
    return all(np.array_equal(first[name], second[name], equal_nan=True) for name in first)


def posed(case: Case, arms: float, wording: Wording, elbow: float = 0.0, from_waist: bool = False) -> str:
    """What stands under a case's title: on whose form, of which cloth, and how the arms are held.

    They are so far below level, and bent so far at the elbows, radians; of what hangs from the waist nothing is said.
    """
    if from_waist:
        return capitalised(case.subtitle)
    degrees = float(np.degrees(arms))
    angle = wording.say("units.degree", number=wording.number(abs(degrees), 0))
    key = "arms_level" if abs(degrees) < 0.5 else "arms" if degrees > 0 else "arms_above"
    said = [case.subtitle, wording.say(f"sit.{key}", angle=angle)]
    if elbow:
        bent = wording.say("units.degree", number=wording.number(float(np.degrees(elbow)), 0))
        said.append(wording.say("sit.elbows", angle=bent))
    return capitalised(" · ".join(said))


def own_cases(drafted: Drafted, wording: Wording) -> list[Case]:
    """Each body of a draft in what was drafted for it."""
    bodies = as_measured(drafted)
    names = drafted.bodies.names
    return [_case(drafted, row, bodies.at([row]), name, wording) for row, name in enumerate(names)]


def _case(
    drafted: Drafted, row: int, body: Bodies, name: str, wording: Wording, form: str = "", of_person: bool = False
) -> Case:
    garment = drafted.garment
    title = wording.sheet_title(wording.titled(garment), (garment.sizes[row],))
    stretch = hand_stretch(garment)
    made = _whom(drafted).is_person
    subject = Subject(garment, row, body, drafted.plan.wearers, stretch, not form, None, made or of_person)
    subject = replace(subject, sides=tuple(_sides(drafted, subject))) if drafted.apart and not form else subject
    parts = [form, _cloth_words(drafted, stretch, wording)]
    whose: Whose = "not_you" if subject.of_person else "not_anyone_near" if form else "not_anyone"
    return Case(name, title, " · ".join(filter(None, parts)), subject, whose)


def _sides(drafted: Drafted, subject: Subject) -> Iterator[Subject]:
    """Left and right of a body that has them apart, each with what was drafted for it."""
    both = two_bodies(subject.bodies)
    if both is None or drafted.apart is None:
        return
    for row in range(len(both)):
        yield replace(subject, garment=drafted.apart.halves, row=row, bodies=both.at([row]))


def _whom(drafted: Drafted) -> Whom:
    return drafted.planned.request.whom if drafted.planned else Whom()


def _cloth_words(drafted: Drafted, stretch: tuple[float, float], wording: Wording) -> str:
    fabric = drafted.planned.fabric if drafted.planned else None
    across, down = (wording.percent(share) for share in stretch)
    said = wording.say("sit.cloth", across=across, down=down) if max(stretch) > 0 else wording.say("sit.woven")
    return f"{wording.named(fabric.name)}: {said}" if fabric else said


def _sound(request: Request) -> Drafted:
    """What is dressed beside what was asked for. Raises `Problems` where its seams do not fit, as for that itself."""
    drafted = draft_and_check(request)
    stop_if_errors(drafted.notes)
    return drafted


def _tried_on(request: Request, person: Drafted, sizes: Sequence[str], wording: Wording) -> Iterator[Case]:
    """Sizes of the chart on the form of one person."""
    whom = Whom(chart=request.whom.chart, sizes=tuple(sizes))
    hers = sizes_for(request)
    drafted = _sound(replace(request, whom=whom))
    body = as_measured(person).at([0])
    for row, size in enumerate(drafted.bodies.names):
        form = wording.say("sit.on_form", name=person.bodies.names[0])
        case = _case(drafted, row, body, f"{person.bodies.names[0]} in {size}", wording, form, True)
        yield replace(case, subject=replace(case.subject, size=hers.get(size)))


def _ends(drafted: Drafted, row: int, wording: Wording) -> Iterator[Case]:
    """One size on the forms of bodies that it claims to serve, far from its own in one trait."""
    bodies = as_measured(drafted)
    values = {name: float(found[row]) for name, found in bodies.values.items()}
    size = bodies.names[row]
    for trait in TRAITS:
        for words, way in ((trait.more, 1), (trait.less, -1)):
            if words not in _SERVED:
                continue
            varied = trait.varied({k: v for k, v in values.items() if np.isfinite(v)}, way)
            body = replace(bodies.at([row]), values={name: np.array([value]) for name, value in varied.items()})
            key = f"sit.{words.replace(' ', '_')}"
            form = wording.say("sit.on_body", size=size, trait=wording.say(key))
            case = _case(drafted, row, body, f"{size} {words}", wording, form)
            yield replace(case, size=size, trait=words.replace(" ", "_"))


def _other_request(request: Request, otherwise: Otherwise) -> Request:
    return replace(
        request,
        pattern=otherwise.pattern or request.pattern,
        styles={**request.styles, **(otherwise.styles or {})},
        fabric=otherwise.fabric or request.fabric,
    )


def _named_apart(cases: list[Case], otherwise: Otherwise, wording: Wording) -> list[Case]:
    """The cases with what is otherwise about them."""
    said = [
        f"{wording.named(name.replace('_', ' '))} {wording.option(value)}"
        for name, value in (otherwise.styles or {}).items()
    ]
    parts = [Path(otherwise.pattern or "").name, *said, wording.named(_fabric_of(otherwise.fabric))]
    words = ", ".join(filter(None, parts))

    def title(case: Case) -> str:
        return wording.say("sit.otherwise", words=case.title, rest=words)

    return [replace(case, name=f"{case.name} otherwise", title=title(case)) for case in cases]


def _fabric_of(given: str | None) -> str:
    """What a fabric is called by its file."""
    return Path(given or "").stem.replace("_", " ")
