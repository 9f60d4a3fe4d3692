"""The last release drafted anew from the inputs that lie in it, and what has changed since."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from draft.answers.compare import Compared, compare_pictures, compare_table
from draft.base.notes import Note, Problems, Severity, caution
from draft.base.record import dataclass
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.garment.changes import changes
from draft.garment.garment import Garment
from draft.pack.files_on_pages import paged_sheets
from draft.pack.pack import printing_for
from draft.pack.paper_request import PaperRequest
from draft.paper.drawing.wording import Wording
from draft.plan.plan import Plan
from draft.release.changes_told import changes_told, notes_told
from draft.release.drafts_apart import GarmentChange, drafts_apart
from draft.release.listing import escaped
from draft.release.pages_again import PagesAgain, pages_again
from draft.release.release_record import RECORD, SOURCE, SUMS, read_record, unlike


@dataclass(frozen=True)
class Since:
    """The last release and this one: both drafts for the sizes that both have, what differs, and on which pages."""

    old_version: str
    old: Garment
    new: Garment
    found: GarmentChange
    pages: tuple[PagesAgain, ...]


def since_then(
    folder: Path, drafted: Drafted, paper: PaperRequest, chart: str = ""
) -> tuple[Since | None, tuple[Note, ...]]:
    """What has changed since the release in a folder, and why that is not known where it cannot be drafted any more.

    `chart` is the name of the pattern's chart that is meant, empty for the usual one.
    """
    try:
        return _compared(folder, drafted, paper, chart), ()
    except Problems as problems:
        fact = f"what has changed since `{folder.name}` is not known: {problems.notes[0].message}"
        return None, (caution(fact, problems.notes[0].span, "look at that folder: its inputs cannot be drafted"),)


def _compared(folder: Path, drafted: Drafted, paper: PaperRequest, chart: str) -> Since:
    record = read_record(folder)
    if record is None or f"{SOURCE}/{record.envelope}" in unlike(folder):
        wrong = SUMS if record else RECORD
        raise Problems([caution(f"it is not as it was made: see its `{wrong}`")])
    whom = Whom(chart=Path(chart)) if chart else Whom()
    old = draft_and_check(Request(str(folder / SOURCE / record.envelope), whom), whole=True)
    shared = tuple(size for size in drafted.garment.sizes if size in old.garment.sizes)
    if not shared:
        raise Problems([caution("the two have no size in common")])
    both = _of_sizes(old, shared), _of_sizes(drafted, shared)
    for one in both:
        errors = [note for note in one.notes if note.severity is Severity.ERROR]
        if errors:
            raise Problems(errors)
    found = drafts_apart(both[0].garment, both[1].garment)
    found = replace(
        found,
        new_sizes=tuple(size for size in drafted.garment.sizes if size not in shared),
        missing_sizes=tuple(size for size in old.garment.sizes if size not in shared),
    )
    pages = () if found.is_nothing else _pages(old, drafted, found, paper)
    return Since(record.version, both[0].garment, both[1].garment, found, pages)


def _of_sizes(drafted: Drafted, sizes: tuple[str, ...]) -> Drafted:
    if drafted.garment.sizes == sizes:
        return drafted
    assert drafted.planned
    request = drafted.planned.request
    return draft_and_check(replace(request, whom=replace(request.whom, sizes=sizes)), whole=True)


def _pages(old: Drafted, new: Drafted, found: GarmentChange, paper: PaperRequest) -> tuple[PagesAgain, ...]:
    """For each paper of a printer which pages differ."""
    if "pages" not in paper.holds:
        return ()
    sheets = [paged_sheets(one.to_cut, printing_for(one, paper)[0]) for one in (old, new)]
    wording = sheets[1][0].wording if sheets[1] else Wording()
    garments = {piece.name: piece for one in (old, new) for piece in one.garment.pieces}
    titles = [wording.title(garments[name]) for name in (*found.again, *found.missing)]
    return tuple(pages_again(before, now, titles) for before, now in zip(*sheets, strict=True))


def told_since(plan: Plan, title: str, since: Since | None, said: Wording) -> str:
    """What is new, in Markdown: the designer's notes, and what the drafts show; empty where there is neither."""
    if not (plan.changed or since):
        return ""
    lines = [f"# {escaped(said.say('release.title', title=title, version=plan.version))}"]
    lines += [_listed(notes_told(plan, said))] if plan.changed else []
    if since:
        head = said.say("release.compared", version=plan.version, old=since.old_version)
        told = changes_told(since.found, since.old_version, (since.old, since.new), since.pages, said)
        lines += [f"## {escaped(head)}", _listed(told)]
    return "\n\n".join(lines) + "\n"


def _listed(lines: Sequence[str]) -> str:
    return "\n".join(f"- {escaped(line)}" for line in lines)


def drawn_since(since: Since | None, title: str, version: str, spoken: Mapping[str, Wording]) -> dict[str, bytes]:
    """The table of every edge, as `compare` makes it, and a drawing of both for each size in each language's folder."""
    if since is None or since.found.is_nothing:
        return {}
    moved = changes(since.old, since.new)
    files = {"compare.csv": compare_table(Compared(since.old, since.new, (since.old_version, version), moved))}
    for code, said in spoken.items():
        called = said.named(title)
        names = (f"{called} {since.old_version}", f"{called} {version}")
        drawn = compare_pictures(Compared(since.old, since.new, names, moved), said)
        files |= {f"{code}/{name}": data for name, data in drawn.items()}
    return files
