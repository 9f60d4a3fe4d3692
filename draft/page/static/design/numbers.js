// Numbers as they stand in a text: read with their unit and step, and written anew in the same way.
// `draft/page/designing/numbers_written.py` has the same rule for points that are dragged.

const NUMBER = /(-[ \t]*)?((?:\d+[ \t]+)?\d+\/\d+|\d+(?:\.\d+)?)([ \t]*)(mm|cm|m|in|ft|yd|deg|%)?(?![A-Za-z0-9_])/g;
const STEPS = { mm: 1, cm: 0.1, m: 0.001, in: 1 / 8, ft: 0.01, yd: 0.01, deg: 0.5, "%": 1 };

// The number at a place of a line, with where it begins and ends there; null where there is none.
export function numberAt(line, column) {
  const comment = line.replace(/"[^"]*"/g, (quoted) => "_".repeat(quoted.length)).split("#")[0];
  for (const found of comment.matchAll(NUMBER)) {
    const before = comment[found.index - 1];
    if (before && /[A-Za-z0-9_.]/.test(before)) continue;
    const lone = found[1] && !/[=,:(]\s*$|\b(?:from|to|of|at)\s+$/.test(comment.slice(0, found.index));
    const start = found.index + (lone ? found[1].length : 0);
    const end = found.index + found[0].length - (found[4] ? 0 : found[3].length);
    if (start <= column && column <= end) return read(comment.slice(start, end), start, end);
  }
  return null;
}

function read(text, start, end) {
  const found = new RegExp(`^${NUMBER.source}$`).exec(text.trim());
  if (!found || /\/0\b/.test(found[2])) return null;
  const unit = found[4] ?? "";
  const fraction = found[2].includes("/");
  const size = amount(found[2]);
  const own = fraction ? 1 / Number(found[2].split("/")[1]) : 10 ** -(found[2].split(".")[1] ?? "").length;
  let step = unit ? Math.min(STEPS[unit], own) : own;
  const decimal = unit === "in" && !fraction && found[2].includes(".");
  if (decimal) step = Math.min(own, 0.1);
  return { start, end, text, value: found[1] ? -size : size, unit, gap: found[3], step, fraction: fraction || step === 1 / 8 };
}

function amount(text) {
  return text.split(/[ \t]+/).reduce((sum, part) => {
    const [over, under] = part.split("/").map(Number);
    return sum + (under ? over / under : over);
  }, 0);
}

// How a value is written in the place of a number: to the multiple of its step that is nearest.
export function written(number, value) {
  const times = Math.round(value / number.step);
  const size = Math.abs(times);
  const body = number.fraction ? asFraction(size, Math.round(1 / number.step)) : asDecimals(size * number.step);
  return `${times < 0 ? "-" : ""}${body}${number.gap}${number.unit}`;
}

function asFraction(times, under) {
  const whole = Math.floor(times / under);
  let over = times - whole * under;
  let below = under;
  while (over && over % 2 === 0 && below % 2 === 0) [over, below] = [over / 2, below / 2];
  return [whole || !over ? String(whole) : "", over ? `${over}/${below}` : ""].filter(Boolean).join(" ");
}

const asDecimals = (size) => String(Number(size.toFixed(4)));

// How far a number can be moved: between the limits that its line gives, or as far again to either side.
export function reach(number, line) {
  const limits = /\bfrom\s+(-?[\d./ ]+\S*?(?:\s*(?:mm|cm|m|in|deg|%))?)\s+to\s+(-?[\d./ ]+?\s*(?:mm|cm|m|in|deg|%)?)(?=\s|$|,)/.exec(line);
  if (limits && number.end <= limits.index) {
    const [low, high] = [limits[1], limits[2]].map((text) => read(text.trim(), 0, 0));
    if (low && high && low.unit === number.unit && low.value < high.value) return [low.value, high.value];
  }
  const span = Math.max(Math.abs(number.value), 20 * number.step);
  const low = number.value - span;
  return [number.value >= 0 ? Math.max(0, low) : low, number.value + span];
}
