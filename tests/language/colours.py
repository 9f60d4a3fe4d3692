"""Makes `grammar/piece.tmLanguage.json`, by which editors colour a piece file, from the words of the grammar.

The format is TextMate's, as most editors read it; scopes are those of its naming conventions, ours ending in `.piece`.
"""

from __future__ import annotations

import json
import re

from draft.base.units import UNITS
from draft.language.grammar import words
from tests.language.keywords import keywords
from tests.project.checkout import ROOT

PLACE = ROOT / "grammar" / "piece.tmLanguage.json"
NAME = "[A-Za-z][A-Za-z0-9_]*"
END = "(?![A-Za-z0-9_])"

HEADS = ("pattern", "template", "block", "piece")
SETTINGS = ("title", "maker", "chart", "uses", "allowance", "cut", "grain", "stretch")
RELATIONS = ("equals", "at least", "at most", "so that")
PHRASES = (
    "as a pair",
    "right side up",
    "as outside",
    "as inside",
    "on the left",
    "on the right",
    "for a lapped zip",
    "for an invisible zip",
    "for a slit",
    "for turning",
    "instead of",
    "on fold",
    "turned up",
)
DIRECTIONS = ("across", "inward", "up", "down")


def _blocks() -> list[str]:
    """The words that head a block of lines."""
    text = (ROOT / "grammar" / "piece.lark").read_text(encoding="utf-8")
    return list(dict.fromkeys(re.findall(r'^\w+: "([a-z]+)"[^\n]*_INDENT', text, re.MULTILINE)))


def _either(words: tuple[str, ...] | list[str]) -> str:
    spaced = (word.replace(" ", "[ \\t]+") for word in sorted(words, key=lambda word: (-len(word), word)))
    return f"\\b(?:{'|'.join(spaced)}){END}"


def _other_words() -> list[str]:
    """The words of the grammar that stand alone and in no group above."""
    alone = set(re.findall(r'"([a-z]+)"', (ROOT / "grammar" / "piece.lark").read_text(encoding="utf-8")))
    within = {word for phrase in (*RELATIONS, *PHRASES) for word in phrase.split()} - words() - alone
    return sorted(keywords() - {*_blocks(), *SETTINGS, *DIRECTIONS, "equals"} - within)


def grammar() -> str:
    """The file's text."""
    words = [*_other_words(), *SETTINGS, *DIRECTIONS, *RELATIONS]
    rules = {
        "comment": {"match": "#.*$", "name": "comment.line.number-sign.piece"},
        "text": {"match": '"[^"]*"', "name": "string.quoted.double.piece"},
        "head": {
            "match": f"^\\s*({'|'.join(HEADS)})\\s+({NAME})(?:\\s+(is|from)\\s+({NAME}))?",
            "captures": _captures(
                "storage.type.block", "entity.name.type", "keyword.other", "entity.other.inherited-class"
            ),
        },
        "block": {"match": f"^\\s*({'|'.join(_blocks())}){END}", "captures": _captures("storage.type.block")},
        # A line begins with the name that it declares, unless with a word of the language, or unless it is a relation.
        "declared": {
            "match": f"^\\s+(?!{_either(words)})({NAME})(?=\\s+[A-Za-z0-9=])(?!\\s+{_either(list(RELATIONS))})",
            "captures": _captures("entity.name"),
        },
        "relation": {"match": _either(list(RELATIONS)), "name": "keyword.operator.relation.piece"},
        "phrase": {"match": _either(list(PHRASES)), "name": "keyword.other.option.piece"},
        "setting": {"match": _either(list(SETTINGS)), "name": "support.type.property-name.piece"},
        "amount": {
            "match": f"((?:\\d+[ \\t]+)?\\d+/\\d+|\\d+(?:\\.\\d+)?)(?:[ \\t]*({'|'.join(UNITS)}){END}|{END})",
            "captures": _captures("constant.numeric", "keyword.other.unit"),
        },
        "direction": {"match": _either(list(DIRECTIONS)), "name": "constant.language.direction.piece"},
        "row": {"match": "\\bpoints(?=[ \\t]+(?:every|from)\\b)", "name": "keyword.other.piece"},
        "layer": {
            "match": "\\b(?:outside|inside)(?=[ \\t]+(?!(?:to|then|reversed|onto)\\b)[A-Za-z])",
            "name": "keyword.other.option.piece",
        },
        "word": {"match": _either(_other_words()), "name": "keyword.other.piece"},
        "operator": {"match": "[-+*/=]", "name": "keyword.operator.piece"},
        "mark": {"match": "[,:()]", "name": "punctuation.separator.piece"},
        "name": {
            "match": f"({NAME})(?:\\s*(\\.)\\s*({NAME}))?",
            "captures": _captures("variable.other", "punctuation.accessor", "variable.other.member"),
        },
    }
    whole = {
        "name": "Piece",
        "scopeName": "source.piece",
        "fileTypes": ["piece"],
        "patterns": [{"include": f"#{name}"} for name in rules],
        "repository": rules,
    }
    return json.dumps(whole, indent=4) + "\n"


def _captures(*scopes: str) -> dict[str, dict[str, str]]:
    return {str(number): {"name": f"{scope}.piece"} for number, scope in enumerate(scopes, 1)}


def coloured(text: str) -> list[tuple[int, str, str]]:
    """Place, text and scope of every stretch as an editor finds them: the rule that matches soonest in a line."""
    rules = json.loads(grammar())
    patterns = [rules["repository"][item["include"][1:]] for item in rules["patterns"]]
    compiled = [(re.compile(rule["match"]), rule) for rule in patterns]
    found = []
    start = 0
    for line in text.split("\n"):
        at = 0
        while at < len(line):
            hits = [(hit, rule) for pattern, rule in compiled if (hit := pattern.search(line, at)) and hit[0]]
            if not hits:
                break
            hit, rule = min(hits, key=lambda pair: pair[0].start())
            if "name" in rule:
                found.append((start + hit.start(), hit[0], rule["name"]))
            for number, scope in rule.get("captures", {}).items():
                if hit[int(number)]:
                    found.append((start + hit.start(int(number)), hit[int(number)], scope["name"]))
            at = hit.end()
        start += len(line) + 1
    return found
