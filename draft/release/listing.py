"""What a shop shows of a pattern, in one text: what it is, for whom, of which cloth, and what is in it."""

from __future__ import annotations

import io
import re
from collections.abc import Collection, Mapping, Sequence

from draft.paper.booklet import BookletFacts
from draft.paper.booklet.material_section import amount_table, bought_besides, cloth_asked
from draft.paper.booklet.sizes_section import TableRows, body_table, finished_table
from draft.paper.booklet.topics import told
from draft.paper.drawing.wording import Wording
from draft.release.changes_told import notes_told, paper_name

_MARKS = re.compile(r"([\\`*_{}\[\]<>#|])")

_NAMED = {"projector.pdf": "projector", "booklet.html": "html", "booklet.epub": "epub"}


def listing_text(
    facts: BookletFacts, pack: Mapping[str, bytes], pictures: Collection[str], spoken: Sequence[str]
) -> str:
    """The text in Markdown; `pack` is what is sold in this language, `pictures` are the names of files beside it."""
    say, named, plan = facts.wording.say, facts.wording.named, facts.drafted.plan
    own, face = plan.booklet, facts.face
    lines = [say("book.by", maker=facts.garment.maker)] if facts.garment.maker else []
    lines += [say("book.version", version=plan.version), facts.wording.sizes(facts.sizes)]
    shown = {name: _picture(name, pictures, facts.wording) for name in ("flat", "pieces", "sizes", "finished", "cloth")}
    parts: list[tuple[str, Sequence[str]]] = [
        ("", [shown["flat"], *(escaped(named(text)) for text in (*own.texts, *own.about("garment")))]),
        (say("book.skill"), [escaped(text) for text in told("skill", facts)]),
        (say("choosing.chart"), [shown["sizes"], _table(facts, body_table(facts))]),
        (say("choosing.finished"), [shown["finished"], _table(facts, finished_table(facts))]),
        (say("book.cloth"), [escaped(text) for text in (cloth_asked(facts), *told("cloth", facts))]),
        (say("listing.cloth"), [shown["cloth"], _table(facts, amount_table(facts))]),
        (say("material.notions"), [_listed(bought_besides(facts))]),
        (say("listing.contents"), [shown["pieces"], _listed(_contents(facts.wording, pack, spoken))]),
        (say("listing.new"), [_listed(notes_told(plan, facts.wording))]),
        (say("book.terms"), [escaped(text) for text in face.terms]),
        (say("book.licence"), [escaped(named(own.licence))]),
        (say("book.more"), [f"<{own.link}>" if own.link else ""]),
    ]
    head = [f"# {escaped(facts.title)}", escaped(" · ".join(lines))]
    body = [block for title, said in parts for block in _part(title, said)]
    return "\n\n".join([*head, *body]) + "\n"


def escaped(text: str) -> str:
    """A text as Markdown shows it: what would be markup stands for itself."""
    return _MARKS.sub(r"\\\1", " ".join(text.split()))


def _part(title: str, said: Sequence[str]) -> list[str]:
    kept = [text for text in said if text]
    return [*([f"## {escaped(title)}"] if title else []), *kept] if kept else []


def _picture(name: str, pictures: Collection[str], wording: Wording) -> str:
    """A picture, in pixels where it is there so."""
    titles = {"sizes": "choosing.chart", "finished": "choosing.finished"}
    told = escaped(wording.say(titles.get(name, f"listing.{name}")))
    file = next((file for file in (f"{name}.png", f"{name}.svg") if file in pictures), "")
    return f"![{told}]({file})" if file else ""


def _listed(lines: Sequence[str]) -> str:
    return "\n".join(f"- {escaped(line)}" for line in lines)


def _table(facts: BookletFacts, rows: TableRows) -> str:
    """Rows of the booklet as a table: the name and the unit of each in one cell."""
    if not rows:
        return ""
    names, name = list[str](), ""
    for row in rows:
        name = row[0] or name
        names.append(f"{name}, {row[1]}" if row[1] else name)
    cells = [("", *facts.sizes), ("---", *("---:" for _ in facts.sizes))]
    cells += [(escaped(label), *row[2:]) for label, row in zip(names, rows, strict=True)]
    return "\n".join(f"| {' | '.join(row)} |" for row in cells)


def _contents(wording: Wording, pack: Mapping[str, bytes], spoken: Sequence[str]) -> list[str]:
    """What is in a pack, counted in its own files."""
    lines = []
    for name, data in pack.items():
        stem, _, kind = name.rpartition("/")[2].rpartition(".")
        if name.startswith("pattern-"):
            lines.append(
                wording.say("listing.pages", paper=paper_name(stem.removeprefix("pattern-")), count=_pages(data))
            )
        elif name.startswith("large/"):
            count = _pages(data)
            key = "listing.large_one" if count == 1 else "listing.large"
            lines.append(wording.say(key, paper=paper_name(stem), count=count))
        elif stem == "booklet" and kind == "pdf":
            lines.append(wording.say("listing.booklet", count=_pages(data)))
        elif name in _NAMED:
            lines.append(wording.say(f"listing.{_NAMED[name]}"))
    lines += [
        wording.say(f"listing.{kind}") for kind in ("svg", "tables") if any(n.startswith(f"{kind}/") for n in pack)
    ]
    names = [Wording(code).say("listing.language") for code in spoken]
    return [*lines, *([wording.say("listing.spoken", languages=", ".join(names))] if len(names) > 1 else [])]


def _pages(data: bytes) -> int:
    import pikepdf

    with pikepdf.open(io.BytesIO(data)) as pdf:
        return len(pdf.pages)
