"""What stands on the first printed page, part by part, each set into a flow of its own column."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property, partial

from draft.base.record import dataclass
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Drawing, Item, Label
from draft.paper.drawing.flow import Flow, Type, stacked
from draft.paper.drawing.imprint import NO_IMPRINT, Imprint
from draft.paper.drawing.mark_places import mark_place
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.seam_rule import seam_rule
from draft.paper.drawing.wording import Wording
from draft.paper.pages import key, sign_key
from draft.paper.pages.page_grid import Assembly, Grid, little_used, pages_by_size

BODY = Type(10.0)
STRONG = Type(10.0, bold=True)
_FINE = Type(9.0, leading=1.34)
_FINE_STRONG = Type(9.0, bold=True, leading=1.34)
HEAD = Type(14.0, bold=True, leading=1.3)
RUNNING = 9.0
"""What the running head takes of further pages, mm."""
_TITLE = 28.0
_WRAPPED, _MOST_LINES = 19.0, 4
"""A title that is not so large in one line is set in so many at most."""
INDENT = 6.0
_MARK_SHARE, _MARK_HIGH = 0.2, 11.5
"""Of a page's width, and mm high: a studio's mark stands beside the title, above the line."""
MAP_LEAST = 48.0
HEADING = 17.0
"""What a heading takes with the room around it, mm."""
_NARROW = 70.0
"""In a narrower column what there is to say to a name stands below it, mm."""


@dataclass(frozen=True)
class Guide:
    """What the guide says about a sheet; `grid` is numbered once it is known how many pages the guide takes."""

    drawing: Drawing
    grid: Grid
    wording: Wording
    imprint: Imprint = NO_IMPRINT

    @cached_property
    def by_size(self) -> dict[str, list[int]]:
        """The numbers of the pages that each size needs."""
        return pages_by_size(self.drawing, self.grid)

    @cached_property
    def little(self) -> list[int]:
        """The numbers of the pages on which there is hardly anything, where pages are put together."""
        return little_used(self.drawing, self.grid) if self.grid.cut else []


def head(about: Guide, x: float, y: float, width: float) -> tuple[list[Item], float]:
    """The title, smaller if it is long, and the sizes; and where they end."""
    title, subtitle, face = about.drawing.title, about.drawing.subtitle, about.imprint.face
    mark, full = mark_place(face, x + width, y, width * _MARK_SHARE, _MARK_HIGH, Passage("Figure", face.name)), width
    width -= float(mark[0].box()[1, 0] - mark[0].box()[0, 0]) + INDENT if mark else 0.0
    large = _TITLE * min(1.0, width / font.text_width(title or " ", _TITLE * PT, bold=True))
    size = max(large, _WRAPPED) * PT
    lines = font.wrapped(title, size, width, bold=True)[:_MOST_LINES] or [""]
    top = y + _TITLE * PT * font.CAP_HEIGHT + 2.0
    fitted = [font.fitted_text(line, size, width, bold=True) for line in lines]
    titles = [
        Label(line, x, top + 1.15 * size * k, size, bold=True, colour=face.headings) for k, line in enumerate(fitted)
    ]
    first, width = titles[-1], full
    rule = seam_rule(width, first.y + 3.6, x, face.lines)
    second = Label(font.fitted_text(subtitle, HEAD.size, width), x, first.y + 11.4, HEAD.size)
    room = width - font.text_width(second.text, HEAD.size) - 6.0
    said = font.fitted_parts(about.wording.imprint(about.imprint), BODY.size, max(room, 0.0))
    imprint = [Label(said, x + width, second.y, BODY.size, "end")] if len(said) > 1 else []
    named = said_as(titles, Passage("H1", title))
    told = [one for label in (second, *imprint) for one in said_as([label], Passage("P", label.text))]
    return [*named, *mark, *rule, *told], second.y + 6.5


def running_head(about: Guide) -> list[Item]:
    """At the head of further pages of the guide, as on those of the sheet: what it is of, and who made it."""
    paper = about.grid.paper
    small = replace(_FINE_STRONG, points=8.0)
    base = paper.margin + small.size * font.CAP_HEIGHT
    said = font.fitted_parts(about.wording.imprint(about.imprint), small.size, paper.live[0] / 2)
    room = paper.live[0] - font.text_width(said, small.size) - INDENT
    text = " · ".join((about.drawing.title, about.drawing.subtitle))
    title = small.label(font.fitted_text(text, small.size, room, bold=True), paper.margin, base)
    return [title, *([Label(said, paper.width - paper.margin, base, small.size, "end")] if len(said) > 1 else [])]


def put_version(flow: Flow, about: Guide, run_on: bool) -> None:
    """For what cloth the pattern is, and with which choices it was drafted."""
    lines = _version(about, flow.width, run_on)
    if lines:
        heading(flow, about.wording.say("choosing.styles"), len(lines) * _FINE.line_height)
        flow.put(said_as(stacked(lines, _FINE)[0], _said(lines)), len(lines) * _FINE.line_height)


def heading(flow: Flow, text: str, keep: float) -> None:
    flow.gap(7.0)
    flow.words(text, HEAD, keep=keep, role="H2")
    flow.gap(2.2)


def put_squares(flow: Flow, about: Guide) -> None:
    """Test squares, and under them the line of each size."""
    say = about.wording.say
    flow.gap(1.0)
    squares = Passage("Figure", f"{say('guide.test_inch')}, {say('guide.test_metric')}")
    flow.put(said_as(key.test_squares(0.0, 0.0, about.wording), squares), key.METRIC + 2.0)
    flow.words(say("guide.measure"), BODY)
    sizes = about.drawing.sizes
    if len(sizes) > 1:
        samples, height = key.size_key(sizes, 0.0, 3.0, flow.width, rows=5)
        heading(flow, say("guide.key_bare" if "bare" in about.drawing.signs else "guide.key"), height)
        flow.put(said_as(samples, Passage("Figure", ", ".join(sizes))), height)
        if not {"bare", "sew"} & set(about.drawing.signs):
            flow.words(say("guide.seam_within"), _FINE)


def printing_steps(
    first: int, last: int, match: str, many: bool, assembly: Assembly, wording: Wording
) -> list[tuple[str, str]]:
    """How to print and assemble, each step as a few words and what they mean; `match` is one match mark's name."""
    names = ["scale", *(["choose"] if many else []), "first", "last" if first == last else "rest"]
    names += {"overlap": ["trim", "tape"], "butt": ["trim_butt", "tape_butt"]}[assembly] if match else []
    fields = {"first": first, "last": last, "match": match}
    return [(wording.say(f"guide.{name}"), wording.say(f"guide.{name}_text", **fields)) for name in names]


def put_steps(flow: Flow, about: Guide, fine: bool = False) -> None:
    """How to print and to put together, in numbered steps; in `fine` letters where room is scarce."""
    strong, body = (_FINE_STRONG, _FINE) if fine else (STRONG, BODY)
    grid, numbers = about.grid, [page.number for page in about.grid.pages]
    match = grid.shared_edges[0].name if grid.shared_edges else ""
    many = len(about.drawing.sizes) > 1
    heading(flow, about.wording.say("guide.title"), 3 * BODY.line_height)
    said = printing_steps(2, numbers[-1], match, many, grid.assembly, about.wording)
    for number, (name, text) in enumerate(said, 1):
        kept = min(3, len(body.lines(text, flow.width - INDENT)))  # so many lines of a text are never apart
        flow.need(strong.line_height + kept * body.line_height)
        flow.put(said_as([strong.label(str(number), 0.0, body.size)], Passage("P", str(number))), 0.0)
        flow.words(name, strong, INDENT, keep=kept * body.line_height)
        flow.words(text, body, INDENT)
        flow.gap(1.6 if fine else 2.2)


def sizes_alike(found: Mapping[str, Sequence[int]]) -> list[tuple[str, Sequence[int]]]:
    """Sizes that follow one another and need the same pages, as one: `XS – M`."""
    groups: list[tuple[list[str], Sequence[int]]] = []
    for size, numbers in found.items():
        if groups and list(groups[-1][1]) == list(numbers):
            groups[-1][0].append(size)
        else:
            groups.append(([size], numbers))
    return [(names[0] if len(names) == 1 else f"{names[0]} – {names[-1]}", numbers) for names, numbers in groups]


def put_pieces(flow: Flow, about: Guide, together: bool, fine: bool = False) -> None:
    """Each piece and how it is cut; or, where pieces stand `together`, how they are cut and which these are."""
    footprints = about.drawing.footprints
    if not footprints:
        return
    heading(flow, about.wording.say("guide.pieces"), BODY.line_height)
    set_rows = _stacked_rows if flow.width < _NARROW else partial(rows, fine=fine)
    if not together:  # with the numbers that cutting layouts call them by
        return set_rows(flow, [(f"{k} · {one.name}", one.cut) for k, one in enumerate(footprints, 1)])
    names: dict[str, list[str]] = {}
    for footprint in footprints:
        names.setdefault(footprint.cut, []).append(footprint.name)
    if set_rows is _stacked_rows:  # whatever is longer is not the bold one
        return set_rows(flow, [(", ".join(those), cut) for cut, those in names.items()])
    return set_rows(flow, [(cut, ", ".join(those)) for cut, those in names.items()])


def put_by_size(flow: Flow, about: Guide) -> None:
    """The pages that each size needs, and those on which there is hardly anything."""
    if len(about.drawing.sizes) > 1:
        found = about.by_size
        heading(flow, about.wording.say("guide.by_size"), 2 * BODY.line_height)
        alike = sizes_alike(found)
        rows(flow, [(names, ranges(numbers)) for names, numbers in alike], least=14.0)
        if len(alike) > 1:
            flow.words(about.wording.say("guide.gaps"), _FINE)
    if about.little:
        key_of = "guide.little_one" if len(about.little) == 1 else "guide.little"
        flow.gap(2.2)
        flow.words(about.wording.say(key_of, pages=ranges(about.little)), _FINE)


def put_signs(flow: Flow, about: Guide, part: slice = slice(None)) -> None:
    """What each sign on the pieces means, of all or some of them."""
    signs = about.drawing.signs[part]
    if signs:
        heading(flow, about.wording.say("guide.signs"), sign_key.height(flow, signs, about.wording))
        sign_key.put_signs(flow, signs, about.wording)


def signs_within(flow: Flow, about: Guide) -> int:
    """How many of the signs the rest of a column has room for, under their heading."""
    signs, room = about.drawing.signs, flow.room - HEADING
    return max(k for k in range(len(signs) + 1) if sign_key.height(flow, signs[:k], about.wording) <= max(room, 0.0))


def rows(flow: Flow, pairs: Sequence[tuple[str, str]], least: float = 30.0, fine: bool = False) -> None:
    """Names in bold, and what there is to say to each beside them."""
    strong, body = (_FINE_STRONG, _FINE) if fine else (STRONG, BODY)
    widest = max(strong.width(name) for name, _ in pairs) + 4.0
    second = min(max(least, widest), flow.width / 2)
    for name, text in pairs:
        names, texts = strong.lines(name, second - 2.0), body.lines(text, flow.width - second)
        items = [strong.label(line, 0.0, body.size + body.line_height * k) for k, line in enumerate(names)]
        items += [body.label(line, second, body.size + body.line_height * k) for k, line in enumerate(texts)]
        read = said_as(items, Passage("P", f"{name}: {text}"))
        flow.put(read, body.line_height * max(len(names), len(texts)) + 0.8)


def _stacked_rows(flow: Flow, pairs: Sequence[tuple[str, str]]) -> None:
    """Names in bold, and below each what there is to say to it, for a narrow column."""
    for name, text in pairs:
        names, over = stacked(_FINE_STRONG.lines(name, flow.width), _FINE_STRONG)
        texts, tall = stacked(_FINE.lines(text, flow.width), _FINE, 0.0, over)
        flow.put(said_as([*names, *texts], Passage("P", f"{name}: {text}")), over + tall + 0.8)


def ranges(numbers: Sequence[int]) -> str:
    """`2–5, 7, 9–12`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs)


def _version(about: Guide, width: float, run_on: bool) -> list[str]:
    """For what cloth the pattern is, and with which choices it was drafted, in a line each or all in one paragraph."""
    said = choices(about)
    return [line for text in ([" · ".join(said)] if run_on else said) for line in _FINE.lines(text, width) if said]


def _said(lines: Sequence[str]) -> Passage:
    return Passage("P", " ".join(lines))


def choices(about: Guide) -> list[str]:
    """The cloth of the pattern and what was chosen for it, in words."""
    return [text for text in (about.imprint.cloth, *about.imprint.choices) if text]
