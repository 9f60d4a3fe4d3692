// A ruler on the screen, true once a card or a coin has been held against it, and a cloth's stretch read off it.

import { make } from "../leaf.js";
import { say } from "../words.js";

// The long side of a bank card (ISO/IEC 7810 ID-1), and coins (from memory), mm.
const THINGS = { card: 85.6, euro: 23.25, quarter: 24.26 };
const KEY = "plainseam.pixels-per-mm";
const USUAL = 96 / 25.4;

export const pixelsPerMm = () => Number(localStorage.getItem(KEY)) || USUAL;
export const isCalibrated = () => Boolean(localStorage.getItem(KEY));

export function openRuler(give) {
  let scale = pixelsPerMm();
  let thing = "card";
  let share = 0.4;
  const measured = make("div", { class: "held", "aria-hidden": "true" });
  const ruler = make("div", { class: "ruler" });
  const told = make("output", { class: "told" });
  const base = () => (scale * 100 * 1.6 > Math.min(innerWidth, 900) - 80 ? 50 : 100);
  const draw = () => {
    const size = THINGS[thing] * scale;
    measured.style.width = `${size}px`;
    measured.style.height = thing === "card" ? `${53.98 * scale}px` : `${size}px`;
    measured.style.borderRadius = thing === "card" ? `${3.18 * scale}px` : "50%";
    ruler.style.width = `${base() * 2.2 * scale}px`;
    ruler.style.backgroundSize = `${10 * scale}px 100%`;
    rest.style.left = `${base() * scale}px`;
    pulled.style.left = `${base() * (1 + share) * scale}px`;
    told.textContent = say("screen.ruler_told", { percent: Math.round(share * 100), base: base() / 10 });
  };
  const rest = make("div", { class: "rest" });
  const pulled = make("div", { class: "pulled" });
  ruler.append(rest, pulled);
  const dialog = make("dialog", { class: "ruler-dialog", "aria-labelledby": "ruler-title" },
    make("h2", { id: "ruler-title" }, say("screen.ruler_title")),
    make("p", {}, say("screen.ruler_hold")),
    make("div", { class: "entry" }, make("label", { for: "ruler-thing" }, say("screen.ruler_thing")),
      make("select", { id: "ruler-thing", onchange: (event) => { thing = event.target.value; draw(); } }, ...Object.keys(THINGS).map((name) => make("option", { value: name }, say(`screen.thing_${name}`))))),
    make("label", { class: "slider" }, say("screen.ruler_size"), make("input", { type: "range", min: 2, max: 16, step: 0.02, value: scale, oninput: (event) => { scale = Number(event.target.value); localStorage.setItem(KEY, String(scale)); draw(); } })),
    measured,
    make("p", {}, say("screen.ruler_pull", { base: base() / 10 })),
    make("label", { class: "slider" }, say("screen.ruler_reach"), make("input", { type: "range", min: 0, max: 1.2, step: 0.01, value: share, oninput: (event) => { share = Number(event.target.value); draw(); } })),
    ruler, told,
    make("div", { class: "entry" },
      make("button", { type: "button", class: "main", onclick: () => { give(share); dialog.close(); } }, say("screen.ruler_take")),
      make("button", { type: "button", onclick: () => dialog.close() }, say("screen.close"))));
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  draw();
}
