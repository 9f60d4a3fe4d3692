"""A new pattern from one that is there: a variation, a copy, pieces traced from its blocks or made after templates."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from draft.base.disk import is_beside
from draft.base.envelope import within
from draft.base.naming import plain
from draft.base.notes import Problems, Source, Span, error, nearest
from draft.base.record import dataclass
from draft.base.resources import folder as bundled_folder
from draft.base.textfile import read_data, read_source
from draft.language import tree
from draft.language.tidy import tidy
from draft.plan.library import SUFFIX, Texts, find, read_texts, read_used
from draft.sharing.enclosed import enclosed
from draft.studio.studio import FILE

_MOST_STYLES = 12
_ITS_OWN = ("maker", "version", "changed")
"""What the head of a pattern says of its maker and its versions, which a copy has of its own."""
_GIVEN = {"length": "40 cm", "angle": "45 deg", "number": "50 %", "direction": "across"}
"""What an input without a default begins with, by its kind."""


@dataclass(frozen=True)
class New:
    """A new pattern: its name in the language, its title, its allowance and the folder that it goes into."""

    name: str
    title: str
    folder: Path
    allowance: str = "1/2 in"

    @property
    def file(self) -> str:
        """The file that it is written into."""
        return f"{self.name}{SUFFIX}"

    def head(self, lines: Sequence[str] = ()) -> str:
        """The first lines of a pattern of its own."""
        settings = [f'title "{self.title}"', *lines, f"allowance {self.allowance}"]
        return "\n".join([f"pattern {self.name}", *(f"    {line}" for line in settings)]) + "\n"


def varied(new: New, base: str) -> dict[str, bytes]:
    """A pattern that varies another, with the files of that which are neither bundled nor in the folder.

    Raises `Problems` for a base that cannot be read, or has the new one's own name.
    """
    path = find(base)
    _stop_if_own(new, path)
    texts = read_texts(path)
    title = _title(texts) or plain(path.stem)
    told = f"# Varies {title}: a line here takes the place of the line of its name there.\n\n"
    head = f'pattern {new.name} from "{path.name}"\n    title "{new.title}"\n'
    return {**_along(new, base, path), new.file: _laid_out(new, told + head + _styles(texts))}


def _styles(texts: Texts) -> str:
    """The styles of the pattern that is varied, to be begun otherwise."""
    lines = [" ".join(style.span.text.split()) for style in texts.main.styles][:_MOST_STYLES]
    if not lines:
        return ""
    shown = "".join(f"#     {line}\n" for line in lines)
    told = "# Styles there; take the `#` away from `style` and from those that are to begin otherwise here."
    return f"\n{told}\n# style\n{shown}"


def copied(new: New, base: str) -> dict[str, bytes]:
    """A pattern that is another's text under its own name, with the files that it uses and its translations.

    Whose the other is, its version and what its versions have changed stay behind. Raises `Problems` as `varied` does.
    """
    path = find(base)
    _stop_if_own(new, path)
    source = read_source(path, "pattern")
    text = source.text
    for span, words in sorted(_renamings(read_texts(path), new), key=lambda one: -one[0].start):
        text = text[: span.start] + words + text[span.end :]
    said = [name for name in enclosed(base).files if name.startswith(f"{path.stem}.") and name.endswith(".toml")]
    along = {name: data for name, data in _along(new, base, path).items() if name not in (path.name, *said)}
    renamed = {name: f"{new.name}.{name.removeprefix(f'{path.stem}.')}" for name in said}
    makers = [text for word, text in _said_of(read_texts(path)) if word == "maker"]
    own = {
        to: _without(read_data(path.with_name(name), "file of translations"), makers) for name, to in renamed.items()
    }
    return {**along, **own, new.file: text.encode()}


def _said_of(texts: Texts) -> list[tuple[str, str]]:
    """The lines of a pattern's head that are of it alone: each word and what stands behind it."""
    lines = [line for pattern in texts.main.patterns[:1] for line in pattern.settings]
    return [(line.word, str(line.value)) for line in lines if line.word in _ITS_OWN]


def _without(translations: bytes, texts: Sequence[str]) -> bytes:
    """Translations without the lines of some texts."""
    lines = translations.decode().splitlines(keepends=True)
    return "".join(line for line in lines if not line.startswith(tuple(f'"{text}"' for text in texts))).encode()


def _renamings(texts: Texts, new: New) -> list[tuple[Span, str]]:
    """What is written anew: the name and the title; and what stays behind, whole lines."""
    found = []
    for pattern in texts.main.patterns[:1]:
        found.append((pattern.name_span, new.name))
        found += [(_whole_lines(line.span), "") for line in pattern.settings if line.word in _ITS_OWN]
        titles = [setting.value_span for setting in pattern.settings if setting.word == "title"]
        found += [(span, f'"{new.title}"' if span.text.startswith('"') else new.title) for span in titles]
    return found


def _whole_lines(span: Span) -> Span:
    """From the beginning of the line that a span begins in to the end of the one that it ends in."""
    text = span.source.text
    start, end = text.rfind("\n", 0, span.start) + 1, text.find("\n", span.end)
    return Span(span.source, start, len(text) if end < 0 else end + 1)


def _along(new: New, base: str, path: Path) -> dict[str, bytes]:
    """What has to lie beside the new pattern and neither is bundled nor lies there already."""
    files = dict(enclosed(base).files)
    files.pop(FILE, None)
    beside = {name for name in files if not within(path) and is_beside(new.folder / name, path.parent)}
    return {name: data for name, data in files.items() if name not in beside and not _is_bundled(name, data)}


def _is_bundled(name: str, data: bytes) -> bool:
    place = bundled_folder("pieces") / name
    return place.is_file() and read_data(place, "file") == data


def _stop_if_own(new: New, path: Path) -> None:
    if path.name == new.file:
        raise Problems([error(f"`{new.name}` is that pattern's own name", None, "choose another name")])


def _title(texts: Texts) -> str:
    heads = texts.main.patterns[:1]
    return next((str(s.value) for head in heads for s in head.settings if s.word == "title"), "")


def _laid_out(new: New, text: str) -> bytes:
    return tidy(Source(new.file, text)).encode()


def traced(new: New, base: str, blocks: Sequence[str]) -> dict[str, bytes]:
    """A pattern whose pieces are traced from blocks of another: those named, or all that are drawn and not traced.

    Raises `Problems` where the other has none of that name, or none at all.
    """
    path = find(base)
    _stop_if_own(new, path)
    texts = read_texts(path)
    known = {piece.name: piece for piece in texts.main.pieces if piece.is_block}
    wrong = next((name for name in blocks if name not in known), None)
    if wrong is not None or not known:
        fact = f"`{path.name}` has no block called `{wrong}`" if wrong else f"`{path.name}` has no blocks"
        hints = nearest(wrong or "", known) or ((f"choose from {', '.join(known)}",) if known else ())
        raise Problems([error(fact, None, *hints)])
    chosen = list(blocks) or [name for name, piece in known.items() if piece.origin is None]
    charts = [s for head in texts.main.patterns for s in head.settings if isinstance(s, tree.Chart) and not s.name]
    lines = [f'chart "{charts[0].value}"'] if charts else []
    head = new.head([*lines, f'uses "{path.name}" for {", ".join(chosen)}'])
    pieces = [f"piece {piece} from {block}\n    cut 1\n" for block, piece in zip(chosen, _pieces(chosen), strict=True)]
    told = f"# Pieces traced from blocks of {_title(texts) or plain(path.stem)}; `moves` close and open their darts.\n"
    return {**_along(new, base, path), new.file: _laid_out(new, "\n".join([told, head, *pieces]))}


def _pieces(blocks: Sequence[str]) -> list[str]:
    """What pieces of blocks are called: `front` of `bodice_front`."""
    short = [re.sub(r"^(bodice|block)_|_(bodice|block|half)$", "", block) for block in blocks]
    return [f"{name}_piece" if name in blocks or short.count(name) > 1 else name for name in short]


def by_template(new: New, base: str, templates: Sequence[str]) -> dict[str, bytes]:
    """A pattern with a piece after each template of a file, or after those named.

    Inputs that have no default begin with a plain amount. Raises `Problems` where the file has none of that name, or
    none at all.
    """
    path = find(base)
    file = read_used(path)
    known = {template.name: template for template in file.templates}
    wrong = next((name for name in templates if name not in known), None)
    if wrong is not None or not known:
        fact = f"`{path.name}` has no template called `{wrong}`" if wrong else f"`{path.name}` has no templates"
        hints = nearest(wrong or "", known) or ((f"choose from {', '.join(known)}",) if known else ())
        raise Problems([error(fact, None, *hints)])
    pieces = [_after(known[name], known) for name in templates or known]
    data = {} if _is_bundled(path.name, read_data(path, "file")) else {path.name: read_data(path, "file")}
    if is_beside(new.folder / path.name, path.parent):
        data = {}
    return {**data, new.file: _laid_out(new, "\n".join([new.head([f'uses "{path.name}"']), *pieces]))}


def _after(template: tree.Template, known: Mapping[str, tree.Template]) -> str:
    lines = [f"piece {template.name}_piece is {template.name}", "    cut 1"]
    for wanted in _inputs(template, known).values():
        words = f'   "{wanted.words}"' if wanted.words else ""
        if wanted.default is None:
            value = wanted.options[0] if wanted.options else _GIVEN.get(wanted.kind.value.split()[-1], "1")
            lines.append(f"    {wanted.name} = {value}{words}")
    return "\n".join(lines) + "\n"


def _inputs(template: tree.Template, known: Mapping[str, tree.Template]) -> dict[str, tree.Input]:
    """What a template is given, also by the one that it is made from."""
    base = known.get(template.base.text) if template.base else None
    return {**(_inputs(base, known) if base else {}), **{one.name: one for one in template.body.inputs}}


def bare(new: New) -> dict[str, bytes]:
    """The least that drafts: two panels of a tube round the bust, sewn at the sides."""
    return {new.file: _laid_out(new, new.head(['chart "women.csv"']) + _BARE)}


_BARE = """
body
    bust_girth, back_waist_length

style
    ease 8 cm from 2 cm to 20 cm "room round the bust"

piece panel
    let
        half_width = quarter of (bust_girth + ease)
    points
        top_centre at 0, 0
        hem_centre from top_centre: back_waist_length down
        hem_side from hem_centre: half_width across
        top_side from top_centre: half_width across
    outline
        top top_side to top_centre straight
        centre top_centre to hem_centre straight, on fold
        hem hem_centre to hem_side straight, turned up
        side hem_side to top_side straight
    cut 2

join
    sides panel.side to panel.side
"""
