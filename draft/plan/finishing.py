"""What is said of a piece besides its lines: how it is cut, its corners, darts, notches and marks."""

from __future__ import annotations

from dataclasses import dataclass

from draft.base.notes import error
from draft.base.units import Kind
from draft.garment.garment import CornerKind, CutAs
from draft.language import tree
from draft.plan.edge_order import in_order
from draft.plan.names import twice
from draft.plan.plan import EdgePlan, MarkPlan, NotchPlan, PiecePlan, TakeupPlan, Value
from draft.plan.true_over import trued_over
from draft.plan.values import Values
from draft.words.word import one

_POINT, _DIRECTION, _LENGTH = one(Kind.POINT), one(Kind.DIRECTION), one(Kind.LENGTH)
MOST_CUT = 100  # more copies of one piece in one garment are a slip of the pen


@dataclass(frozen=True)
class Filled:
    """A piece with its template's lines, if it has one."""

    piece: tree.Piece
    body: tree.Body
    template: tree.Template | None


class Finishing:
    """Makes the plans of pieces whose names are all declared."""

    def __init__(self, values: Values) -> None:
        self.values = values
        self.notes = values.notes

    def plan(self, filled: Filled, allowance: Value) -> PiecePlan | None:
        """The plan of a declared piece, or None with notes."""
        name = filled.piece.name
        settings = _settings(filled.body)
        grain = self._direction(filled, settings.get("grain"), "up")
        stretch = self._direction(filled, settings.get("stretch"), "across")
        ends = [end for edge in filled.body.edges for end in (edge.start, edge.end)]
        known = all(self.values.names.knows(end, name) for end in ends)  # else that alone is worth a note
        ordered = in_order(filled.piece, filled.body, self.notes) if known else []
        corners = self._corners(name, filled.body)
        edges = [self._edge_plan(name, edge, allowance, corners.get(edge.end.parts, "carried")) for edge in ordered]
        cut = self._cut(filled, settings.get("cut"))
        if not grain or not stretch or not edges or any(edge is None for edge in edges):
            return None
        title = settings.get("title")
        shown = str(title.value) if title else name.replace("_", " ")
        takeups = [self._takeup(name, takeup) for takeup in filled.body.takeups]
        notches = [self._notch(name, notch) for notch in filled.body.notches]
        marks = [self._mark(name, mark) for mark in filled.body.marks]
        if any(part is None for part in [*takeups, *notches, *marks]):
            return None
        return PiecePlan(
            filled.piece.span,
            name,
            shown,
            tuple(e for e in edges if e),
            *cut,
            grain,
            stretch,
            tuple(takeup for takeup in takeups if takeup),
            tuple(notch for notch in notches if notch),
            tuple(mark for mark in marks if mark),
            stretches="stretch" in settings,
        )

    def _corners(self, piece: str, body: tree.Body) -> dict[tuple[str, ...], CornerKind]:
        """The corners that the file decides, by the point at each."""
        ends = {edge.end.parts for edge in body.edges}
        self.notes += twice((corner.at.text, corner.at.span) for corner in body.corners)
        for corner in body.corners:
            if self.values.names.find(corner.at, piece) and corner.at.parts not in ends:
                fact = f"no corner of `{piece}` lies at `{corner.at.text}`"
                self.notes.append(error(fact, corner.at.span, "name the point where two edges meet"))
        return {corner.at.parts: corner.kind for corner in body.corners}

    def _notch(self, piece: str, notch: tree.SetNotch) -> NotchPlan | None:
        place = tree.Call(notch.span, "on_edge", (notch.edge, notch.distance, notch.near))
        if self.values.names.knows(notch.edge, piece) and not self._own(notch.edge, "a notch"):
            return None
        at = self.values.compile(place, piece, _POINT)
        if not at:
            return None
        return NotchPlan(notch.span, notch.edge.parts[0], at, 2 if notch.double else 1)

    def _mark(self, piece: str, mark: tree.Mark) -> MarkPlan | None:
        at = [self.values.compile(ref, piece, _POINT) for ref in mark.at]
        if any(point is None for point in at):
            return None
        return MarkPlan(mark.span, mark.name, mark.drill, tuple(p for p in at if p), mark.words)

    def _own(self, edge: tree.Ref, what: str) -> bool:
        if len(edge.parts) != 1:
            fact = f"{what} lies on an edge of its own piece"
            self.notes.append(error(fact, edge.span, f"try `{edge.parts[-1]}`"))
        return len(edge.parts) == 1

    def _takeup(self, piece: str, takeup: tree.Takeup) -> TakeupPlan | None:
        edge = self.values.compile(takeup.edge, piece, one(Kind.EDGE))
        if edge and not self._own(takeup.edge, "a dart or pleat"):
            return None
        width = self.values.compile(takeup.width, piece, _LENGTH)
        at = self.values.compile(takeup.at, piece, _POINT)
        to = self.values.compile(takeup.to, piece, _POINT) if takeup.to else None
        length = self.values.compile(takeup.length, piece, _LENGTH) if takeup.length else None
        if not edge or not width or not at or (takeup.to and not to) or (takeup.length and not length):
            return None
        over = trued_over(self.values, piece, takeup) if takeup.trued else None
        return TakeupPlan(takeup.span, takeup.name, takeup.edge.parts[0], width, at, to, length, over)

    def _direction(self, filled: Filled, setting: tree.Setting | None, default: str) -> Value | None:
        if setting is None:
            return self.values.compile(tree.Call(filled.piece.name_span, default, ()), filled.piece.name)
        assert not isinstance(setting.value, str)
        return self.values.compile(setting.value, filled.piece.name, _DIRECTION)

    def _edge_plan(self, piece: str, edge: tree.Edge, allowance: Value, end_corner: CornerKind) -> EdgePlan | None:
        full = f"{piece}.{edge.name}"
        own = self.values.compile(edge.allowance, piece, _LENGTH) if edge.allowance else allowance
        if own is None or full not in self.values.steps:
            return None
        if edge.on_fold and (len(edge.legs) != 1 or edge.legs[0].sort != "straight"):
            fact = f"`{edge.name}` lies on the fold, so it must be one straight leg"
            self.notes.append(error(fact, edge.span, "try `straight`, or leave out `on fold`"))
        finished = [("an allowance", edge.allowance), ("a hem", edge.turned_up), ("gathers", edge.gathered)]
        for what in [what for what, said in finished if said] if edge.on_fold else ():
            fact = f"`{edge.name}` lies on the fold, where the cloth goes on: it has no edge for {what}"
            self.notes.append(error(fact, edge.span, "take out one of the two"))
        gathered = self.values.compile(edge.gathered, piece, one(Kind.NUMBER)) if edge.gathered else None
        ends = edge.start.text, edge.end.text
        return EdgePlan(
            edge.span, edge.name, full, own, edge.on_fold, edge.turned_up, gathered, end_corner, ends, edge.unjoined
        )

    def _cut(self, filled: Filled, setting: tree.Setting | None) -> tuple[int, CutAs]:
        name = filled.piece.name
        if setting is None:
            self.notes.append(
                error(f"`{name}` does not say how many to cut", filled.piece.name_span, "add a line `cut 1`")
            )
            return 1, ""
        number, _, cut_as = str(setting.value).partition(" ")
        count = float(number)
        if count != int(count) or not 1 <= count <= MOST_CUT:
            self.notes.append(error(f"`{number}` is not a number of pieces", setting.value_span, "try `cut 1`"))
        elif cut_as == "as a pair" and count % 2:
            self.notes.append(
                error(
                    "pairs are cut from an even number of pieces",
                    setting.value_span,
                    f"try `cut {int(count) + 1} as a pair`",
                )
            )
        return int(count), cut_as  # type: ignore[return-value]


def _settings(body: tree.Body) -> dict[str, tree.Setting]:
    found: dict[str, tree.Setting] = {}
    for setting in body.settings:
        found.setdefault(setting.word, setting)
    return found
