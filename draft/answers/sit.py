"""How garments will sit: a sheet for each and one of all beside one another, their figures, what is said of them."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import replace

from draft.answers.ends_told import ends_told
from draft.answers.sit_cases import Case, posed, same_form
from draft.base.as_data import Data
from draft.base.csvtext import CsvText
from draft.base.notes import Note, Problems, error
from draft.base.output_names import file_names
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.wearers import WOMEN, Wearers
from draft.form.landmarks import landmarks_of
from draft.paper.drawing.wording import Wording
from draft.paper.worn.form_sheet import FormSheet, form_sheet
from draft.paper.worn.worn_beside import worn_beside
from draft.paper.worn.worn_files import sheet_files
from draft.paper.worn.worn_sheet import WornSheet, worn_sheet
from draft.paper.worn.worn_words import not_dressed, sentences
from draft.sitting.called_of import levels_called
from draft.sitting.differing import differing
from draft.sitting.estimated_of import estimated_of, outside_of
from draft.sitting.figures_of import HEAD, plain_of, rows_of
from draft.sitting.sit_said import Said
from draft.sitting.sitting_of import ARMS, Asked, Sitting, bare_form, sitting_of
from draft.sitting.worn_of import form_alone
from draft.toile.dressed import Refused

_SHOWN = ("neck", "bust", "under_bust", "waist", "top_hip", "hip")

Say = Callable[[str], object]
"""Told on one line what is being done."""


@dataclass(frozen=True, eq=False)
class Sat:
    """One case with what came of it."""

    case: Case
    found: Sitting | Refused


def sat(cases: Sequence[Case], asked: Asked, say: Say = lambda words: None) -> list[Sat]:
    """Every case dressed and read, or refused."""
    found = []
    for number, case in enumerate(cases):
        place = f"{case.name}, {number + 1} of {len(cases)}" if len(cases) > 1 else case.name

        def told(what: str, share: float, place: str = place) -> None:
            say(f"{what} {place}: {share:.0%}".replace("%", " %"))

        found.append(Sat(case, sitting_of(case.subject, asked, told)))
    say("")
    return found


def sit_report(all_of_them: Sequence[Sat], wording: Wording) -> str:
    """What there is to say of each, a paragraph each."""
    parts = []
    for one in all_of_them:
        head = ": ".join(filter(None, (one.case.title, one.case.subtitle)))
        told = _told(one, wording)
        differs = sentences(_differs(one, all_of_them), wording)
        told = [wording.say("sit.differs"), *differs, *told] if differs else told
        parts.append("\n".join([head, *(f"  {line}" for line in told)]) if len(all_of_them) > 1 else "\n".join(told))
    ends = _ends(all_of_them, wording)
    return "\n\n".join(filter(None, [*parts, "\n".join(ends), _whose(all_of_them, wording)]))


def _ends(all_of_them: Sequence[Sat], wording: Wording) -> list[str]:
    """Where sizes fail at the ends of whom they serve, with a heading; nothing where these were not tried."""
    told = ends_told([(one.case, one.found) for one in all_of_them], wording)
    return [wording.say("sit.ends"), *told] if told else []


def _whose(all_of_them: Sequence[Sat], wording: Wording) -> str:
    """Whose measures the forms have, each once; nothing where none was dressed."""
    shown = [one for one in all_of_them if isinstance(one.found, Sitting)]
    return " ".join(dict.fromkeys(wording.say(f"sit.{one.case.whose}") for one in shown))


def refusals(all_of_them: Sequence[Sat], wording: Wording) -> list[Note]:
    """An error for each that could not be dressed, with the reason."""
    return [
        error(f"{one.case.name}: {not_dressed(one.found.reason, wording)}")
        for one in all_of_them
        if isinstance(one.found, Refused)
    ]


def _told(one: Sat, wording: Wording) -> list[str]:
    if isinstance(one.found, Refused):
        return [wording.say("sit.refused", reason=not_dressed(one.found.reason, wording))]
    return sentences(one.found.told, wording)


def _differs(one: Sat, all_of_them: Sequence[Sat]) -> tuple[Said, ...]:
    """How it sits otherwise than the first of those on the same form; nothing of that itself, and of other forms."""
    alike = [other for other in all_of_them if isinstance(other.found, Sitting) and same_form(other.case, one.case)]
    if not isinstance(one.found, Sitting) or alike[0] is one:
        return ()
    first = alike[0].found
    assert isinstance(first, Sitting)
    return differing(first.reading, one.found.reading)


def sit_files(
    all_of_them: Sequence[Sat], title: str, wording: Wording, arms: float = ARMS, elbow: float = 0.0
) -> dict[str, bytes]:
    """A sheet of each that could be dressed, all beside one another where there are several, and the figures."""
    names = file_names([one.case.name for one in all_of_them])
    sheets = [
        (name, _worn(one, posed(one.case, arms, wording, elbow, one.found.reading.from_waist), all_of_them))
        for name, one in zip(names, all_of_them, strict=True)
        if isinstance(one.found, Sitting)
    ]
    files: dict[str, bytes] = {}
    for name, sheet in sheets:
        files |= sheet_files(f"sit/{name}", worn_sheet(sheet, wording), wording.language)
    ends = _ends(all_of_them, wording)
    if len(sheets) > 1:
        for number, drawing in enumerate(worn_beside(title, [sheet for _, sheet in sheets], wording, ends), 1):
            files |= sheet_files("beside" if number == 1 else f"beside-{number}", drawing, wording.language)
    return files | {"sit.csv": _table(all_of_them, wording), "sit.json": _written(sit_data(all_of_them, wording))}


def _worn(one: Sat, under: str, all_of_them: Sequence[Sat]) -> WornSheet:
    assert isinstance(one.found, Sitting)
    differs = _differs(one, all_of_them)
    return WornSheet(one.case.title, under, one.found.worn, one.found.told, one.case.whose, differs)


def _table(all_of_them: Sequence[Sat], wording: Wording) -> bytes:
    table = CsvText()
    table.add([("garment", "form", *HEAD)])
    for one in all_of_them:
        if isinstance(one.found, Sitting):
            table.add([(one.case.name, one.case.subtitle, *row) for row in rows_of(one.found.reading)])
        else:
            reason = not_dressed(one.found.reason, wording)
            table.add([(one.case.name, one.case.subtitle, "not dressed", reason, "", "", "")])
    return table.data


def sit_data(all_of_them: Sequence[Sat], wording: Wording) -> Data:
    """The same figures and sentences for a program: `garments`, `ends` and `note`."""
    found = []
    for one in all_of_them:
        about: dict[str, object] = {"name": one.case.name, "title": one.case.title, "on": one.case.subtitle}
        about["whose_form"] = wording.say(f"sit.{one.case.whose}")
        if isinstance(one.found, Sitting):
            about |= {"dressed": True, **plain_of(one.found.reading), "said": sentences(one.found.told, wording)}
            about["differs"] = sentences(_differs(one, all_of_them), wording)
        else:
            about |= {"dressed": False, "reason": not_dressed(one.found.reason, wording), "why": one.found.reason.key}
        found.append(about)
    return {"garments": found, "ends": _ends(all_of_them, wording)[1:], "note": _whose(all_of_them, wording)}


def _written(whole: Data) -> bytes:
    return (json.dumps(whole, indent=1, ensure_ascii=False) + "\n").encode()


def form_files(person: Bodies, arms: float, wording: Wording, wearers: Wearers = WOMEN) -> dict[str, bytes]:
    """A sheet of one person's form, arms held so far below level. Raises `Problems` where none can be made."""
    found = bare_form(person, wearers, arms)
    if found is None:
        fix = "give bust, waist or hip; of children no form is made"
        raise Problems([error("too little is known of this body to make a form of it", None, fix)])
    form, field, bare = found
    worn = form_alone(field, bare, landmarks_of(form, 0))
    worn = replace(worn, levels=levels_called(form, worn.levels))
    girths = {name: float(form.girth(name)[0]) for name in _SHOWN if name != "under_bust" or form.measured.of.mounded}
    girths = levels_called(form, girths)
    title = wording.say("sit.form_of", name=person.names[0])
    sheet = FormSheet(title, worn, girths, tuple(estimated_of(form)), tuple(outside_of(form)))
    return sheet_files("form", form_sheet(sheet, wording), wording.language)
