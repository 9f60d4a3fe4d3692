// How it comes out: the garment drawn flat, how it sits, its pieces, what it needs; each shown as soon as it is there.

import { ask, Superseded, Told } from "../line.js";
import { make, picture, show } from "../leaf.js";
import { say } from "../words.js";
import { asked, state } from "./state.js";
import { isCalibrated, pixelsPerMm } from "./ruler.js";

// The small drawing leads to the large one, and is away while that is seen.
new IntersectionObserver(([seen]) => document.getElementById("peek").classList.toggle("unseen", seen.isIntersecting)).observe(document.getElementById("flat"));
document.getElementById("peek").addEventListener("click", (event) => {
  event.preventDefault();
  document.getElementById("result").scrollIntoView({ behavior: "smooth" });
});

const at = (id) => document.getElementById(id);
let round = 0;
let last = "";
let forHer = false;
let shownGarment = "";

export async function showResult(now, choices) {
  const wanted = asked(now);
  const key = JSON.stringify([wanted, now.page]);
  if (key === last) return;
  last = key;
  const mine = ++round;
  working(true);
  at("needs").classList.add("stale");
  if (shownGarment !== now.garment) {
    shownGarment = now.garment;
    for (const part of ["needs", "lays", "sits", "pieces"]) at(part).replaceChildren();
    at("result").scrollTo(0, 0);
  }
  const parts = [
    [ask("drawn", wanted), (gave) => { drawnHere(gave, choices); captioned(wanted); }],
    [ask("sit", wanted), (gave) => sitsHere(gave)],
  ];
  const faults = [];
  await Promise.all(parts.map(([waiting, put]) => putIn(waiting, put)));
  if (mine !== round) return;
  working(false);
  const failed = faults.some((note) => note.severity === "error");
  const begun = failed && faults.every((note) => note.about === "measures_missing");
  const stale = failed && !(begun && !forHer);
  for (const part of ["flat", "sits", "pieces", "lays"]) at(part).closest("figure, div").classList.toggle("stale", stale);
  stillNeeded(faults);
  if (begun) showTold(at("told"), []);
  else if (faults.length) showTold(at("told"), faults);
  clearTimeout(rest);
  if (!failed) rest = setTimeout(() => void counted(now, wanted, mine), RESTING);

  async function putIn(waiting, put) {
    try {
      const gave = await waiting;
      if (mine === round) put(gave);
    } catch (reason) {
      if (reason instanceof Told) faults.push(...reason.notes);
      else if (!(reason instanceof Superseded)) throw reason;
    }
  }
}

// What is drawn, for whom: said with the drawing, not before.
function captioned(wanted) {
  forHer = Object.keys(wanted.measures).length > 0;
  const [key, said] = forHer ? ["for_her", { name: wanted.name || say("screen.her") }] : wanted.sizes.length === 1 ? ["for_size", { size: wanted.sizes[0] }] : ["for_sizes", { sizes: wanted.sizes.join(", ") }];
  at("flat-caption").textContent = say(`screen.${key}`, said);
}

// Measures that she has not come to yet are no mistake: they are named beneath the fields.
function stillNeeded(faults) {
  const place = at("needed");
  if (!place) return;
  const note = faults.find((one) => one.about === "measures_missing");
  place.hidden = !note;
  place.textContent = note ? note.message : "";
}

// Paper and cloth are counted once she rests: they take longer than the drawing that she looks at.
const RESTING = 500;
let rest = 0;

async function counted(now, wanted, mine) {
  const parts = [
    [ask("amount", wanted), (gave) => needsHere(gave)],
    [now.page === "none" ? Promise.resolve({ pages: {} }) : ask("count_pages", { ...wanted, pages: [now.page] }), (gave) => pagesHere(gave, now)],
  ];
  await Promise.all(parts.map(async ([waiting, put]) => {
    try {
      const gave = await waiting;
      if (mine === round) put(gave);
    } catch (reason) {
      if (reason instanceof Told && mine === round) needsAre(toldParts(reason.notes), []);
      else if (!(reason instanceof Superseded)) throw reason;
    }
  }));
}

// Said only of what takes longer than a moment.
let telling = 0;
function working(is) {
  const told = at("working");
  clearTimeout(telling);
  if (is) telling = setTimeout(() => { told.hidden = false; told.textContent = say("screen.working"); }, 700);
  else told.hidden = true;
}

function toldParts(notes) {
  const seen = new Set();
  const fresh = notes.filter((note) => !seen.has(note.message) && seen.add(note.message));
  // What is about a text of her own is said in the language of its words, and that is told.
  const foreign = fresh.some((note) => !note.about) && state().language !== "en";
  return [...(foreign ? [make("p", { class: "quiet" }, say("screen.told_in_english"))] : []),
    ...fresh.map((note) => make("div", { class: note.severity === "error" ? "note bad" : "note", lang: note.about ? state().language : "en" },
      make("p", {}, sentence(note.message)), ...note.hints.map((hint) => make("p", { class: "quiet" }, sentence(plain(hint))))))];
}

export function showTold(place, notes, otherwise = []) {
  place.replaceChildren(...toldParts(notes),
    ...(otherwise.length ? [make("div", { class: "note" }, make("p", {}, say("choosing.otherwise_text")), make("ul", {}, ...otherwise.map((one) => make("li", {}, one))))] : []));
}

const words = (text) => text.replaceAll("`", "").replaceAll("_", " ");
const sentence = (text) => { const plainly = words(text); return `${plainly.charAt(0).toUpperCase()}${plainly.slice(1)}${/[.!?]$/.test(plainly) ? "" : "."}`; };
const plain = (hint) => hint.replace(/`?--[a-z]+ ([^`]*)`?/g, "$1");

function drawnHere(gave, choices) {
  showTold(at("told"), gave.notes, gave.otherwise);
  show(at("flat"), gave.flat, say("screen.flat_of", { garment: choices.title }));
  show(at("peek-flat"), gave.flat, "");
  at("peek").hidden = false;
  const place = at("pieces");
  const old = place.querySelector("img");
  if (old && gave.pieces) return show(old, gave.pieces, say("screen.pieces_of", { garment: choices.title }));
  if (gave.pieces) place.replaceChildren(make("h3", {}, say("screen.pieces")), zoomed(picture(gave.pieces, say("screen.pieces_of", { garment: choices.title }))));
  return undefined;
}

// A drawing to look into: larger, smaller, whole, or as large as it will be cut.
function zoomed(image) {
  const frame = make("div", { class: "looking whole", tabindex: "0", role: "group", "aria-label": say("screen.pieces") }, image);
  let share = 1;
  const set = (to) => { share = Math.min(12, Math.max(1, to)); frame.classList.toggle("whole", share === 1); image.style.width = `${100 * share}%`; };
  const step = (by) => {
    const middle = [(frame.scrollLeft + frame.clientWidth / 2) / frame.scrollWidth, (frame.scrollTop + frame.clientHeight / 2) / frame.scrollHeight];
    set(share * by);
    frame.scrollLeft = middle[0] * frame.scrollWidth - frame.clientWidth / 2;
    frame.scrollTop = middle[1] * frame.scrollHeight - frame.clientHeight / 2;
  };
  frame.addEventListener("keydown", (event) => {
    const by = { "+": 1.25, "=": 1.25, "-": 0.8 }[event.key];
    if (by) { step(by); event.preventDefault(); }
    if (event.key === "0") set(1);
  });
  frame.addEventListener("wheel", (event) => { if (event.ctrlKey) { event.preventDefault(); step(event.deltaY < 0 ? 1.1 : 1 / 1.1); } }, { passive: false });
  const real = () => { set((image.naturalWidth * 25.4 / 96 * pixelsPerMm()) / frame.clientWidth); };
  return make("div", {}, make("div", { class: "bar" },
    make("button", { type: "button", onclick: () => step(0.8), "aria-label": say("screen.smaller") }, "−"),
    make("button", { type: "button", onclick: () => step(1.25), "aria-label": say("screen.larger") }, "+"),
    make("button", { type: "button", onclick: () => set(1) }, say("screen.whole")),
    make("button", { type: "button", onclick: real, title: isCalibrated() ? "" : say("screen.real_rough") }, say("screen.real"))), frame);
}

// ---- how it sits

function sitsHere(gave) {
  const only = gave.sizes.length === 1;
  const rows = gave.levels.map((level) => make("tr", {}, make("th", { scope: "row" }, level.title),
    ...(only ? [level.rows[0].body, level.rows[0].garment, level.rows[0].room].map((text) => make("td", {}, text)).concat(make("td", {}, make("span", { class: "how" }, level.rows[0].how))) : level.rows.map((row) => make("td", {}, row.room)))));
  const heads = only ? ["screen.level", "screen.body", "screen.garment", "screen.room", "screen.sits"].map((key) => say(key)) : [say("screen.room_at"), ...gave.sizes];
  at("sits").replaceChildren(...[
    make("h3", {}, say("screen.fit")),
    gave.levels.length ? make("div", { class: "wide" }, make("table", {}, make("thead", {}, make("tr", {}, ...heads.map((head) => make("th", { scope: "col" }, head)))), make("tbody", {}, ...rows))) : null,
    ...gave.stretch.map((one) => make("p", { class: one.short ? "note bad" : "" }, say(`screen.gives_${one.short ? "short_" : Object.keys(state().cloth).length ? "" : "asked_"}${one.way}`, one))),
    gave.size ? size(gave.size) : null,
    gave.picture ? make("details", {}, make("summary", {}, say(gave.size === undefined ? "screen.fit_picture_size" : "screen.fit_picture")), picture(gave.picture, say("screen.fit_picture_of"), { class: "sheet" })) : null,
    gave.estimates.length ? estimates(gave.estimates) : null,
  ].filter(Boolean));
}

function size(one) {
  if (!one.cut) return make("p", {}, say("screen.size_none"));
  const graded = one.grade.map((to) => say("screen.size_to", to)).join(", ");
  return make("p", {}, graded ? say("screen.size_graded", { ...one, graded }) : say("screen.size_whole", one));
}

const estimates = (ones) => make("details", {}, make("summary", {}, say("screen.estimated", { count: ones.length })),
  make("p", { class: "quiet" }, say("screen.estimated_lead")),
  make("ul", { class: "estimates" }, ...ones.map((one) => make("li", {}, one.spread ? say("screen.estimate", one) : say("screen.estimate_bare", one)))));

// ---- cloth and paper

function pagesHere(gave, now) {
  const count = gave.pages[now.page];
  const place = document.getElementById("page-count");
  if (place) place.textContent = count ? say("screen.page_count", { count }) : "";
}

function needsHere(gave) {
  const sizes = new Set(gave.amounts.flatMap((one) => Object.keys(one.lengths)));
  const line = (one) => make("li", {}, `${one.cloth ? `${one.cloth}, ` : ""}${say("screen.wide", { width: one.width })}${one.laid ? ` (${say(`screen.laid_${one.laid}`)})` : ""}: ${Object.entries(one.lengths).map(([size, length]) => (sizes.size > 1 ? `${size} ${length}` : length)).join("; ")}`);
  needsAre([
    make("h3", {}, say("screen.cloth_needed")),
    make("ul", {}, ...gave.amounts.map(line)),
    ...gave.too_wide.map((one) => make("p", { class: "note" }, say(one.sizes.length > 1 || !forHer ? "screen.too_wide" : "screen.too_wide_for_her", { ...one, sizes: one.sizes.join(", ") }))),
    ...gave.have.map((one) => make("p", { class: one.fits ? "note good" : "note" }, one.said)),
  ], gave.layouts.length ? [make("details", {}, make("summary", {}, say("screen.layouts", { count: gave.layouts.length })), ...gave.layouts.map((svg) => picture(svg, say("screen.layout"), { class: "sheet" })))] : []);
}

// How much cloth stands where she asks for it; how it is laid, with the other drawings.
function needsAre(told, lays) {
  at("needs").replaceChildren(...told);
  at("needs").classList.remove("stale");
  at("lays").replaceChildren(...lays);
}

export const current = () => asked(state());
