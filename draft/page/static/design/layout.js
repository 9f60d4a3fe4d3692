// Where the pieces lie on the sheet: in rows, blocks below; while a number moves they stay where they are.

const GAP = 40;
const SPARE = 1.12;
const NARROWEST = 170; // mm: room for its name

// The slots of pieces and blocks; those from before where each piece still fits into its own.
export function arranged(pieces, blocks, before, aspect) {
  const boxes = [...pieces.map((piece) => ({ name: piece.name, box: piece.box })), ...blocks.map(boxOf)];
  const kept = before.length === boxes.length && boxes.every((one, k) => fits(one, before[k]));
  if (kept) return before.map((slot, k) => ({ ...slot, box: boxes[k].box }));
  return inRows(boxes, pieces.length, aspect);
}

function fits(one, slot) {
  if (one.name !== slot.name) return false;
  const [left, top, right, bottom] = one.box;
  const room = slot.room;
  return left >= room[0] && top >= room[1] && right <= room[2] && bottom <= room[3];
}

// The rows whose whole comes nearest to the shape of the pane: so it is seen as large as can be.
function inRows(boxes, count, aspect) {
  const across = boxes.map(({ box }) => (box[2] - box[0]) * SPARE + GAP);
  const total = across.reduce((sum, one) => sum + one, 0);
  const widths = [1, 2, 3, 4, 5, 6].map((rows) => Math.max(total / rows, ...across)).flatMap((wide) => [wide, wide * 1.3]);
  const tried = widths.map((wide) => laid(boxes, count, wide));
  const size = (slots) => {
    const edge = (axis, far) => Math.max(...slots.map((slot) => (axis ? slot.y : slot.x) + slot.box[axis + far]));
    return Math.max(edge(0, 2), edge(1, 2) * aspect);
  };
  return tried.reduce((best, slots) => (size(slots) < size(best) ? slots : best));
}

function laid(boxes, count, wide) {
  const order = boxes.map((one, k) => ({ ...one, k })).sort((a, b) => (a.k >= count) - (b.k >= count) || height(b) - height(a) || a.k - b.k);
  const slots = [];
  let [x, y, high] = [0, 0, 0];
  for (const one of order) {
    const across = Math.max((one.box[2] - one.box[0]) * SPARE, NARROWEST);
    const down = height(one) * SPARE;
    const isFirstBlock = one.k >= count && slots.filter(Boolean).length === count;
    if (x && (x + across > wide || isFirstBlock)) [x, y, high] = [0, y + high + GAP, 0];
    const [sx, sy] = [(across - (one.box[2] - one.box[0])) / 2, ((SPARE - 1) * down) / 2];
    const room = [one.box[0] - sx - GAP / 3, one.box[1] - sy - GAP / 3, one.box[2] + sx + GAP / 3, one.box[3] + sy + GAP / 3];
    slots[one.k] = { name: one.name, box: one.box, room, x: x - one.box[0] + sx, y: y - one.box[1] + sy };
    x += across + GAP;
    high = Math.max(high, down);
  }
  return slots;
}

const height = ({ box }) => box[3] - box[1];

function boxOf(block) {
  const numbers = [...(block.points ?? []).map((point) => point.at)];
  const [xs, ys] = [0, 1].map((axis) => numbers.map((at) => at[axis]));
  for (const edge of block.edges ?? []) {
    const found = edge.d.match(/-?[\d.]+(?:e-?\d+)?/g)?.map(Number) ?? [];
    found.forEach((value, k) => (k % 2 ? ys : xs).push(value));
  }
  return { name: block.name, box: [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)] };
}
