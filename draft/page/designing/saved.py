"""Saving: the file that the page was opened with, and no other, unless somebody else has written it meanwhile."""

from __future__ import annotations

from draft.base.disk import is_file
from draft.base.notes import Problems, error
from draft.base.output import replace_file
from draft.base.textfile import LARGEST, read_data, source_of
from draft.page.bench import Asked, Bench, Gave


def save(asked: Asked, bench: Bench) -> Gave:
    """Put a `text` into the file; `was` is the text that the page knows to be in it, and `over` writes over any other.

    Gives the `text` that now stands there. Raises `Problems` where there is none to save to, or it has changed.
    """
    file, text = bench.file, asked.get("text")
    if file is None:
        fix = "start the page with a file: `plainseam page NAME.piece`"
        raise Problems([error("this page was opened without a file, so there is none to save to", None, fix)])
    if not isinstance(text, str) or len(text.encode("utf-8", "replace")) > LARGEST:
        raise Problems([error("this is no text of a pattern, or one over 1 MB")])
    data = read_data(file, "pattern") if is_file(file) else b""
    there = source_of(data, str(file), "pattern", file.name).text
    if there not in (asked.get("was"), text) and not asked.get("over"):
        fix = "take over what stands there now, or save once more to write over it"
        raise Problems([error(f"`{file.name}` has been changed elsewhere since it was read", None, fix)])
    ends = "\r\n" if b"\r\n" in data else "\n"
    mark = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
    try:
        replace_file(file, mark + text.replace("\n", ends).encode("utf-8"))
    except UnicodeEncodeError:
        raise Problems([error("this text holds half of a letter, which no file can")]) from None
    return {"text": text}
