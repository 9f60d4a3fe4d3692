// A join walked: its sides as two strips laid along one another, cut into their edges, with what they match at.

import { make } from "../leaf.js";
import { say } from "../words.js";
import { length, plain } from "./format.js";
import { draw } from "./keyed.js";

const [WIDE, HIGH, GAP] = [1000, 30, 26];

export function strip(walked, body, size) {
  const whole = Math.max(walked.lengths[0][body] ?? 0, walked.lengths[1][body] ?? 0) || 1;
  const scale = (WIDE - 4) / whole;
  const svg = draw("svg", { class: "strip", viewBox: `0 0 ${WIDE} ${2 * HIGH + GAP + 2}`, role: "img" });
  svg.setAttribute("aria-label", words(walked, body, size));
  const times = Math.max(1, walked.times);
  side(svg, walked.first, 1, body, scale, walked.lengths[0][body], true);
  side(svg, walked.second, HIGH + GAP + 1, body, scale, walked.lengths[1][body], false, times);
  for (const match of walked.matches) {
    const [first, second] = [match.first[body], match.second[body]];
    if (first === null || second === null) continue;
    draw("path", { class: "match", d: `M${2 + first * scale} ${HIGH - 8}V${HIGH + 1}L${2 + second * scale} ${HIGH + GAP + 1}v9` }, svg);
  }
  return make("figure", { class: "walked" }, svg, make("figcaption", {}, words(walked, body, size)));
}

function side(svg, edges, y, body, scale, whole, isFirst) {
  let x = 2;
  const runs = [...edges];
  let laid = 0;
  for (let k = 0; laid < (whole ?? 0) - 0.5 && k < 12; k += 1) {
    const edge = runs[k % runs.length];
    const long = Math.min(edge.length[body] ?? 0, whole - laid);
    if (long <= 0) break;
    draw("rect", { class: isFirst ? "side first" : "side second", x, y, width: long * scale, height: HIGH }, svg);
    const text = draw("text", { x: x + (long * scale) / 2, y: y + HIGH / 2 + 5 }, svg);
    const name = `${plain(edge.piece)}, ${plain(edge.whole)} ${length(edge.length[body])}`;
    text.textContent = name.length * 8.5 < long * scale ? name : length(edge.length[body]);
    x += long * scale;
    laid += long;
  }
}

function words(walked, body, size) {
  const off = walked.difference[body] ?? 0;
  const given = {
    join: plain(walked.name), size,
    first: length(walked.lengths[0][body]), second: length(walked.lengths[1][body]),
    off: Math.abs(off) < 0.05 ? "0 mm" : `${Math.abs(off).toFixed(1)} mm`,
    ratio: Math.round((100 * walked.lengths[0][body]) / walked.lengths[1][body]),
  };
  const how = walked.fit === "even" ? "design.walked_even" : "design.walked_shared";
  const ends = Math.abs(off) < 0.05 ? "design.walked_fits" : off > 0 ? "design.walked_longer" : "design.walked_shorter";
  return `${say(how, given)} ${say(ends, given)}`;
}
