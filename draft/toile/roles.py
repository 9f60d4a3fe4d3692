"""Where each piece goes on a body, as seams and middles tell, and what cannot be dressed yet, with the reason."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Garment, Piece, SidePart
from draft.seams.handed import BEHIND
from draft.toile.chosen_panels import Chosen, on_middle
from draft.toile.panel import Panel
from draft.toile.sewn import Role
from draft.toile.why_not import CannotDress

_DOWN = 0.7  # cosine: an edge within 45 degrees of the grain runs down the body


def roles_of(found: Chosen) -> dict[str, Role]:
    """The role of each panel that has one."""
    roles: dict[str, Role] = {}
    for name, panel in found.panels.items():
        if panel.band:
            roles[name] = "band"
        elif not panel.middles and _is_tube(found, name):
            roles[name] = "sleeve"
    roles |= {name: role for name, one in found.panels.items() if name not in roles and (role := _named(one.piece))}
    _carried_on(found, roles)
    return roles


def not_worn(found: Chosen, roles: Mapping[str, Role], body: int) -> frozenset[str]:
    """Panels that are left out: what stands up from the neck, where there is no head, and cuffs that are no strips."""
    return frozenset(
        name
        for name, panel in found.panels.items()
        if _stands_up(found, panel, roles, body) or (name not in roles and _on_sleeves(found, name, roles))
    )


def check_roles(found: Chosen, roles: Mapping[str, Role]) -> None:
    """Raises CannotDress of what goes nowhere, and where nothing lies in the middle of front or back."""
    for role in ("front", "back"):
        there = [panel for name, panel in found.panels.items() if roles.get(name) == role]
        if not there:
            raise CannotDress(f"why_no_{role}")
        if found.halved and not any(panel.middles for panel in there):
            raise CannotDress(f"why_opens_{role}")
    for name, panel in found.panels.items():
        if name not in roles or _spans(found, panel, roles):
            raise CannotDress("why_goes_nowhere", name_piece=panel.piece.title)


def is_parted(found: Chosen, roles: Mapping[str, Role]) -> bool:
    """Whether no seams run from each part of the front to each other one, but by way of the back."""
    fronts = {name for name in found.panels if roles.get(name) == "front"}
    reached = {min(fronts)}
    for _ in fronts:
        reached |= {name for join in found.joins if join.pieces & reached for name in join.pieces & fronts}
    return reached != fronts


def _named(piece: Piece) -> Role | None:
    words = piece.name.split("_")
    if "front" in words:
        return "front"
    return "back" if any(word in words for word in BEHIND) else None


def _is_tube(found: Chosen, name: str) -> bool:
    """Whether a seam has the piece on both of its sides, by edges of its own."""
    return any(
        _edges(join.first, name) and _edges(join.second, name) and _edges(join.first, name) != _edges(join.second, name)
        for join in found.joins
    )


def _edges(parts: tuple[SidePart, ...], name: str) -> set[str]:
    return {part.edge for part in parts if part.piece == name}


def _carried_on(found: Chosen, roles: dict[str, Role]) -> None:
    """What has no word in its name lies where most of what it is sewn to lies."""
    for _ in found.panels:
        for name in found.panels:
            beside = [roles[other] for other in _beside(found, name) if roles.get(other) in ("front", "back")]
            if name not in roles and beside:
                roles[name] = "front" if beside.count("front") > beside.count("back") else "back"


def _beside(found: Chosen, name: str) -> list[str]:
    return [other for join in found.joins if name in join.pieces for other in join.pieces if other != name]


def _on_sleeves(found: Chosen, name: str, roles: Mapping[str, Role]) -> bool:
    return {roles.get(other) for other in _beside(found, name)} == {"sleeve"}


def _stands_up(found: Chosen, panel: Panel, roles: Mapping[str, Role], body: int) -> bool:
    """Whether it is sewn to the upper edges of front and back together: to the neck, as collars and hoods are."""
    sides = _spans(found, panel, roles)
    return bool(sides) and all(_is_high(found.panels[part.piece].piece, part.edge, body) for part in sides)


def _is_high(piece: Piece, edge: str, body: int) -> bool:
    """Whether an edge lies in the upper half of its piece."""
    up = [float(v) for one in piece.edges for v in one.segments[body].reshape(-1, 2) @ piece.grain[body]]
    own = piece.edge(edge).segments[body].reshape(-1, 2) @ piece.grain[body]
    return float(own.mean()) > (max(up) + min(up)) / 2


def _spans(found: Chosen, panel: Panel, roles: Mapping[str, Role]) -> tuple[SidePart, ...]:
    """The other side of a seam that has a piece without a word for it alone, and there both front and back."""
    if panel.band or _named(panel.piece):
        return ()
    for join in found.joins:
        for own, others in ((join.first, join.second), (join.second, join.first)):
            alone = {part.piece for part in own} == {panel.name}
            if alone and {roles.get(part.piece) for part in others} >= {"front", "back"}:
                return () if roles.get(panel.name) == "sleeve" else others
    return ()


def no_legs(garment: Garment, body: int) -> None:
    """Raises CannotDress where a seam in the middle ends in one that runs down the inside of a leg."""
    for join in garment.joins:
        for part in join.first:
            piece = garment.piece(part.piece)
            if on_middle(join, piece.name) and any(
                _sewn_to_others(garment, piece, edge.name) and _runs_down(piece, edge, body)
                for edge in _next_to(piece, part.edge)
            ):
                raise CannotDress("why_legs")


def _next_to(piece: Piece, edge: str) -> list[Edge]:
    at = [one.name for one in piece.edges].index(edge)
    return [piece.edges[(at + k) % len(piece.edges)] for k in (-1, 1)]


def _sewn_to_others(garment: Garment, piece: Piece, edge: str) -> bool:
    """Whether an edge is sewn to another piece that is no facing."""
    return any(
        (part.piece, part.edge) == (piece.name, edge) and len(join.pieces) > 1 and not join.is_facing
        for join in garment.joins
        for part in (*join.first, *join.second)
    )


def _is_sewn(found: Chosen, piece: str, edge: str) -> bool:
    return any((part.piece, part.edge) == (piece, edge) for join in found.joins for part in (*join.first, *join.second))


def _runs_down(piece: Piece, edge: Edge, body: int) -> bool:
    way: Floats = edge.segments[body, -1, 3] - edge.segments[body, 0, 0]
    return abs(float(way @ piece.grain[body])) > _DOWN * float(np.hypot(*way))


def hems_of(found: Chosen, roles: Mapping[str, Role], body: int) -> tuple[tuple[str, str], ...]:
    """The edges of the trunk that are sewn to nothing and run across the grain at the lower end of their piece."""
    hems = []
    for name, panel in found.panels.items():
        if roles[name] not in ("front", "back"):
            continue
        grain = panel.piece.grain[body]
        up = {edge.name: float((edge.segments[body].reshape(-1, 2) @ grain).mean()) for edge in panel.piece.edges}
        middle = (max(up.values()) + min(up.values())) / 2
        hems += [
            (name, edge.name)
            for edge in panel.piece.edges
            if edge.name in panel.parts
            and edge.name not in panel.middles
            and not _is_sewn(found, name, edge.name)
            and not _runs_down(panel.piece, edge, body)
            and up[edge.name] < middle
        ]
    return tuple(hems)
