"""Hems, and pieces that are hemmed, turned in and stitched onto others, in words."""

from __future__ import annotations

from draft.garment.garment import Edge, Patch, Piece, SidePart
from draft.paper.booklet.edges_marked import marked_on
from draft.paper.booklet.facts import BookletFacts, Hemmed
from draft.paper.booklet.notions_words import sewn_in
from draft.paper.booklet.stages import Sentence, Stage, by_cloth, staged


def hem(hemmed: Hemmed, facts: BookletFacts) -> list[Sentence]:
    """The sentences of the hems of some edges."""
    groups: dict[float, list[tuple[Piece, Edge]]] = {}
    for piece, edge in hemmed:
        groups.setdefault(round(edge.allowance, 1), []).append((piece, edge))
    text = []
    for width, edges in groups.items():
        names = marked_on([SidePart(piece.name, edge.name) for piece, edge in edges], facts)
        distance = facts.wording.length(max(width - 3.0, width / 2))
        text.append(
            staged(
                "hem_text" if facts.knit else "hem_text_woven", facts,
                length=facts.wording.length(width), edges=names, distance=distance,
            )
        )  # fmt: skip
    bought = [
        sewn
        for piece, edge in hemmed
        for sewn in sewn_in(
            f"{piece.name}.{edge.name}", facts, "sewn_on_fold", deep=facts.wording.length(edge.allowance)
        )
    ]
    casing = ["casing_gap", "casing"] if any(edge.gathered is not None for _, edge in hemmed) else []
    drawn = ["casing_gap", "casing_elastic"] if any(edge.elastic is not None for _, edge in hemmed) else []
    said = [staged(key, facts) for key in drawn or casing]
    return [*dict.fromkeys(bought), *text, *said, by_cloth("stitch_hem", facts)]


def stitched_on(patch: Patch, facts: BookletFacts) -> list[Sentence]:
    """Hem it, turn its other edges in, lay it on its line and stitch it on."""
    piece, onto = facts.garment.piece(patch.piece), facts.garment.piece(patch.onto)
    hemmed = tuple((piece, edge) for edge in piece.edges if edge.turned_up and edge.allowance > 0)
    rest = [edge for edge in piece.edges if not edge.turned_up and edge.allowance > 0]
    caught = any(edge.unjoined for edge in rest)
    text = [said.at(Stage.PREPARED) for said in hem(hemmed, facts)[:-1]] if hemmed else []
    fields = {"piece": facts.piece(piece), "onto": facts.piece(onto), "line": _printed(onto, patch.line, facts)}
    if rest:
        text.append(staged(f"patch_turned{'_inside' if caught else '_others' if hemmed else ''}", facts, **fields))
    if piece.copies() < onto.copies():
        text.append(staged("patch_once", facts))
    text += [staged("patch", facts, **fields), staged("patch_sewn", facts)]
    if caught:
        text.append(staged("patch_caught", facts, **fields))
    if hemmed:
        both = piece.on_fold and not any(_over_the_fold(piece, edge) for _, edge in hemmed)
        text.append(staged("patch_open_both" if both else "patch_open", facts))
    return [*text, by_cloth("stitch_on", facts)]


def _over_the_fold(piece: Piece, edge: Edge) -> bool:
    """Whether an edge begins or ends at the fold, and so goes on beyond it."""
    names = [one.name for one in piece.edges]
    at = names.index(edge.name)
    return any(piece.edges[k % len(names)].on_fold for k in (at - 1, at + 1))


def _printed(piece: Piece, line: str, facts: BookletFacts) -> str:
    """What stands beside a marked line on the piece."""
    mark = next(mark for mark in piece.marks if mark.name == line)
    return facts.edge(mark.words or mark.name)
