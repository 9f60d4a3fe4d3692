"""Marked-up text as plain data that a browser builds elements from: nothing of it is ever read as markup there.

A leaf is a text, or `[tag, attributes, leaves]` with a tag and attributes of those below; whatever else stands in the
text comes out as letters.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.tree import SyntaxTreeNode

Leaf: TypeAlias = "str | list[Any]"
_PLAIN = {"p", "ul", "ol", "li", "em", "strong", "blockquote", "table", "thead", "tbody", "tr", "th", "td", "hr", "br"}
_HEADINGS = {"h1", "h2", "h3", "h4", "h5", "h6"}


def leaves(text: str) -> list[Leaf]:
    """The leaves of a text in Markdown; links lead within the text alone."""
    from markdown_it.tree import SyntaxTreeNode

    return _all(SyntaxTreeNode(_reader().parse(text)).children)


def _reader() -> MarkdownIt:
    from markdown_it import MarkdownIt  # of the extra `page`

    return MarkdownIt("commonmark", {"html": False, "maxNesting": 40}).enable("table")


def _all(nodes: list[SyntaxTreeNode]) -> list[Leaf]:
    return [leaf for node in nodes for leaf in _of(node)]


def _of(node: SyntaxTreeNode) -> list[Leaf]:
    if node.type == "text":
        return [node.content]
    if node.type in ("softbreak", "inline"):
        return _all(node.children) if node.children else [" "]
    if node.type == "code_inline":
        return [["code", {}, [node.content]]]
    if node.type in ("fence", "code_block"):
        return [["pre", {"sort": node.info.strip()} if node.info.strip() else {}, [node.content]]]
    if node.tag in _HEADINGS:
        inside = _all(node.children)
        return [[node.tag, {"id": slug(said(inside))}, inside]]
    if node.type == "link":
        aim = str(node.attrs.get("href", ""))
        inside = _all(node.children)
        return [["a", {"to": aim.removeprefix("#")}, inside]] if aim.startswith("#") else inside
    if node.tag in _PLAIN:
        return [[node.tag, {}, _all(node.children)]]
    return _all(node.children) or ([node.content] if node.content else [])


def said(found: list[Leaf]) -> str:
    """The letters of leaves alone."""
    return "".join(leaf if isinstance(leaf, str) else said(leaf[2]) for leaf in found)


def slug(words: str) -> str:
    """The name of a heading, by which links of the same text lead to it."""
    kept = "".join(letter if letter.isalnum() or letter in "-_ " else "" for letter in words.lower())
    return kept.strip().replace(" ", "-")
