"""A tube of two rectangles sewn at the sides, settled round a cylinder by hand: every figure of it is known."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.toile.dressed import Dressed, Settled
from draft.toile.sewn import Sewn

ACROSS, DOWN = 12, 30
LONG = 500.0


def sewn(wide: float) -> Sewn:
    """Half of a front and of a back, each so wide, mm, sewn to one another at the side."""
    x, y = np.meshgrid(np.linspace(0, wide, ACROSS + 1), np.linspace(-LONG, 0, DOWN + 1), indexing="ij")
    one = np.stack([x.ravel(), y.ravel()], axis=1)
    count = len(one)
    at = np.arange(count).reshape(ACROSS + 1, DOWN + 1)
    a, b, c, d = at[:-1, :-1].ravel(), at[1:, :-1].ravel(), at[1:, 1:].ravel(), at[:-1, 1:].ravel()
    triangles = np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)])
    pairs = np.stack([at[-1], at[-1] + count], axis=1)
    merged = np.arange(2 * count)
    merged[pairs[:, 1]] = pairs[:, 0]
    both = np.concatenate([triangles, triangles + count])
    edges = {}
    for k, name in enumerate(("front", "back")):
        edges |= {(name, "side"): at[-1] + k * count, (name, "hem"): at[:, 0] + k * count}
        edges |= {(name, "top"): at[:, -1] + k * count, (name, "centre"): at[0] + k * count}
    middle = np.zeros(2 * count, dtype=bool)
    middle[np.concatenate([at[0], at[0] + count])] = True
    ways = np.tile([[1.0, 0.0]], (len(both), 1))
    return Sewn(
        rest=np.concatenate([one, one]),
        triangles=both,
        pieces=("front", "back"),
        piece_of_vertex=np.repeat([0, 1], count),
        piece_of_triangle=np.repeat([0, 1], len(triangles)),
        pairs=pairs,
        merged=np.unique(merged, return_inverse=True)[1],
        on_middle=middle,
        grain=ways[:, ::-1],
        across=ways,
        layers=np.ones(len(both)),
        edges=edges,
        roles=("front", "back"),
        hems=(("front", "hem"), ("back", "hem")),
        edge_length=20.0,
    )


def dressed(wide: float, radius: float, raised: float = 0.0, tilt: float = 0.0) -> Dressed:
    """It round a cylinder, its hem raised and its front tilted up by so much, mm; one state is `ride`, higher still."""
    mesh = sewn(wide)
    states = {state: _settled(mesh, wide, radius, up, tilt) for state, up in (("down", 0.0), ("held", raised / 2))}
    states["ride"] = _settled(mesh, wide, radius, raised, tilt)
    hems = {}
    for state, one in states.items():
        rows = {"front": ("front", 0), "side": ("front", -1), "back": ("back", 0)}
        hems[state] = {
            name: float(one.positions[mesh.merged[mesh.edges[(piece, "hem")][end]], 2])
            for name, (piece, end) in rows.items()
        }
    return Dressed(mesh, states, hems, hems["down"])  # type: ignore[arg-type]


def _settled(mesh: Sewn, wide: float, radius: float, up: float, tilt: float) -> Settled:
    turn = mesh.rest[:, 0] / wide * np.pi / 2
    behind = mesh.piece_of_vertex == 1
    y = np.where(behind, 1.0, -1.0) * radius * np.cos(turn)
    height = mesh.rest[:, 1] + up + tilt * (-y / radius + 1) / 2
    places = np.stack([radius * np.sin(turn), y - 110.0, height], axis=1)
    positions = np.zeros((mesh.count, 3))
    positions[mesh.merged] = places
    strain: Floats = np.full(len(mesh.triangles), radius * np.pi / 2 / wide - 1)
    zeros = np.zeros(mesh.count)
    flat = np.zeros(len(mesh.triangles))
    way = np.zeros((len(flat), 3))
    return Settled(positions, strain, flat, zeros, 0.0, 0.0, way, flat, True, np.zeros(mesh.count, dtype=bool))
