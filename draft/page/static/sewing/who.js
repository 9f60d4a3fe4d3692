// For whom: her measures, each with its drawing, or a size of the chart; and the people whose measures are kept.

import { ask, Told } from "../line.js";
import { later, make, picture } from "../leaf.js";
import { say } from "../words.js";
import { change, state } from "./state.js";

let built = "";
let kept = [];

export function showWho(place, now, choices) {
  const key = JSON.stringify([choices.title, now.language, now.units, now.who, now.chart, choices.measures.length]);
  if (built !== key) {
    built = key;
    const typing = place.contains(document.activeElement) ? document.activeElement : null;
    place.replaceChildren(ways(now), ...(now.who === "me" ? [person(now, choices)] : [choices.charts.length ? charts(now, choices) : "", sizes(choices)]));
    goOn(place, typing);
    if (now.who === "me") void refreshPeople();
  }
  for (const input of place.querySelectorAll("input[data-measure]")) {
    const text = now.measures[input.dataset.measure] ?? "";
    if (document.activeElement !== input && input.value !== text) input.value = text;
    judge(input, choices);
  }
  for (const box of place.querySelectorAll("input[data-size]")) box.checked = now.sizes.includes(box.value);
  for (const radio of place.querySelectorAll("input[data-figure]"))
    radio.checked = radio.value ? now.figure.includes(radio.value) : !now.figure.some((one) => radio.dataset.figure.split("|").includes(one));
  const name = place.querySelector("#who-name");
  if (name && document.activeElement !== name) name.value = now.name;
}

// Who is just typing goes on in the new form, and nothing that she has typed is lost.
function goOn(place, typing) {
  const name = typing?.dataset.measure;
  const input = name && place.querySelector(`[data-measure="${name}"]`);
  if (!input) return;
  input.value = typing.value;
  input.focus();
  typed(name, input);
}

const ways = (now) => make("div", { class: "ways", role: "radiogroup", "aria-labelledby": "who-title" },
  ...[["me", "screen.who_me"], ["size", "screen.who_size"]].map(([way, key]) =>
    make("label", { class: "way" }, make("input", { type: "radio", name: "way", value: way, checked: now.who === way, onchange: () => change({ who: way }) }), say(key))));

function person(now, choices) {
  const first = choices.measures.filter((one) => one.first);
  const more = choices.measures.filter((one) => !one.first);
  return make("div", {},
    make("div", { id: "people" }),
    make("p", { class: "quiet" }, say("screen.measure_lead")),
    make("div", { class: "measures" }, ...first.map((one) => measure(one, now))),
    make("p", { class: "note", id: "needed", role: "status", hidden: true }),
    make("details", {}, make("summary", {}, say("screen.more_measures", { count: more.length })),
      make("p", { class: "quiet" }, say("screen.more_measures_lead")),
      make("div", { class: "measures" }, ...more.map((one) => measure(one, now)))),
    make("details", { class: "figures", ontoggle: (event) => event.target.open && void figures(event.target) }, make("summary", {}, say("screen.figure"))),
    document.documentElement.hasAttribute("data-keeps") ? keeping(now) : null);
}

function measure(one, now) {
  const unit = one.angle ? say("screen.degrees") : say(now.units === "in" ? "screen.in" : "screen.cm_short");
  const drawing = make("div", { class: "drawn", id: `how-${one.name}`, hidden: true });
  const help = make("button", { type: "button", class: "help", "aria-expanded": "false", "aria-controls": drawing.id, "aria-label": say("screen.how_taken", { measure: one.title }),
    onclick: async () => {
      drawing.hidden = !drawing.hidden;
      help.setAttribute("aria-expanded", String(!drawing.hidden));
      if (drawing.hidden || drawing.childElementCount) return;
      const { svg } = one.drawn ? await ask("measure", { about: one.name }) : { svg: "" };
      if (svg) drawing.append(picture(svg, say("measuring.drawn", { measure: one.title })));
      drawing.append(make("p", {}, `${one.how}.`));
    } }, "?");
  const input = make("input", { type: "text", inputmode: "decimal", id: `m-${one.name}`, "data-measure": one.name, autocomplete: "off", "aria-describedby": `fault-${one.name}`,
    oninput: (event) => typed(one.name, event.target), onchange: (event) => settle(one.name, event.target.value) });
  return make("div", { class: "measure" },
    make("label", { for: input.id }, one.title),
    make("span", { class: "entry" }, input, make("span", { class: "unit" }, unit), help),
    make("p", { class: "fault", id: `fault-${one.name}` }), drawing);
}

// What was typed counts unless it has been replaced meanwhile by what was kept of somebody.
const typed = later(250, (name, input) => document.activeElement === input && set(name, input.value, false));
const settle = (name, text) => set(name, text, true);

function set(name, text, settled) {
  const measures = { ...state().measures };
  if (text.trim()) measures[name] = text.trim();
  else delete measures[name];
  change({ measures }, settled);
}

// Say at the field itself what no body can have, in her own unit.
function judge(input, choices) {
  const one = choices.measures.find((known) => known.name === input.dataset.measure);
  const text = input.value.trim();
  const value = amount(text);
  let fault = "";
  if (text && Number.isNaN(value)) fault = say("screen.no_number");
  else if (text && !/[a-z"']/i.test(text) && (value < one.low || value > one.high)) fault = outside(value, one);
  const ask = fault ? "" : doubt(input, value);
  const place = document.getElementById(`fault-${one.name}`);
  input.setAttribute("aria-invalid", String(Boolean(fault)));
  place.textContent = fault || ask;
  place.classList.toggle("ask", Boolean(ask));
}

// The slip that is likeliest: the other unit, or metres; else the ends alone.
function outside(value, one) {
  const fits = (other) => other >= one.low && other <= one.high;
  const ends = { low: one.low, high: one.high };
  if (one.angle) return say("screen.outside_bare", ends);
  if (fits(100 * value) && state().units === "cm") return say("screen.outside_metres", { ...ends, value: Math.round(100 * value) });
  return say(fits(value * 2.54) || fits(value / 2.54) ? "screen.outside" : "screen.outside_bare", ends);
}

// What may be so, and is more often a slip.
function doubt(input, hip) {
  const waist = input.dataset.measure === "hip_girth" ? amount(state().measures.waist_girth ?? "") : NaN;
  return hip < waist ? say("screen.hip_below_waist") : "";
}

export function amount(text) {
  const found = /^(\d+(?:[.,]\d+)?)?\s*(?:(\d+)\/(\d+))?\s*(cm|in|mm|m|deg|"|°)?$/i.exec(text.trim());
  if (!found || (found[1] === undefined && found[2] === undefined)) return NaN;
  return Number((found[1] ?? "0").replace(",", ".")) + (found[2] ? Number(found[2]) / Number(found[3]) : 0);
}

async function figures(place) {
  if (place.querySelector(".sayings")) return;
  const { sayings } = await ask("sayings", { language: state().language });
  const groups = Map.groupBy ? Map.groupBy(sayings, (one) => one.group) : grouped(sayings);
  place.append(make("p", { class: "quiet" }, say("screen.figure_lead")), make("div", { class: "sayings" },
    ...[...groups].map(([group, ones]) => make("fieldset", {}, make("legend", { class: "unseen" }, ones.map((one) => one.title).join(", ")),
      make("label", { class: "saying" }, radio(group, "", ones), make("span", {}, say("screen.figure_usual"))),
      ...ones.map((one) => make("label", { class: "saying", title: one.seen }, radio(group, one.words, ones), picture(one.svg, ""), make("span", {}, one.title)))))));
  const now = state();
  for (const input of place.querySelectorAll("input[data-figure]"))
    input.checked = input.value ? now.figure.includes(input.value) : !now.figure.some((one) => input.dataset.figure.split("|").includes(one));
}

function grouped(ones) {
  const groups = new Map();
  for (const one of ones) groups.set(one.group, [...(groups.get(one.group) ?? []), one]);
  return groups;
}

const radio = (group, words, ones) => make("input", { type: "radio", name: `figure-${group}`, value: words, "data-figure": ones.map((one) => one.words).join("|"),
  onchange: () => {
    const others = state().figure.filter((one) => !ones.some((other) => other.words === one));
    change({ figure: words ? [...others, words] : others });
  } });

// Sizes of one chart are none of another's.
const charts = (now, choices) => make("p", { class: "entry" }, make("label", { for: "which-chart" }, say("screen.which_chart")),
  make("select", { id: "which-chart", onchange: (event) => change({ chart: event.target.value, sizes: [] }) },
    ...choices.charts.map((one, k) => make("option", { value: k ? one.name : "", selected: (k ? one.name : "") === now.chart },
      [one.title || say("screen.usual_chart"), one.words].filter(Boolean).join(", ")))));

const sizes = (choices) => make("fieldset", { class: "sizes" }, make("legend", {}, say("screen.which_sizes")),
  ...choices.sizes.map((size) => make("label", { class: "way" },
    make("input", { type: "checkbox", value: size, "data-size": true, onchange: () => {
      const chosen = new Set(state().sizes);
      if (chosen.has(size)) chosen.delete(size);
      else chosen.add(size);
      change({ sizes: choices.sizes.filter((one) => chosen.has(one)) });
    } }), size)));

// ---- people whose measures are kept

const keeping = (now) => make("details", { class: "keeping" }, make("summary", {}, say("screen.keep_title")),
  make("p", { class: "quiet", id: "kept-where" }),
  make("div", { class: "entry" },
    make("label", { for: "who-name" }, say("screen.keep_name")),
    make("input", { type: "text", id: "who-name", value: now.name, maxlength: 60, autocomplete: "off", onchange: (event) => change({ name: event.target.value.trim() }) }),
    make("button", { type: "button", onclick: () => void keep() }, say("screen.keep"))),
  make("p", { class: "fault", id: "keep-told", role: "status" }));

async function keep() {
  const now = state();
  const told = document.getElementById("keep-told");
  const unit = now.units === "in" ? " in" : " cm";
  const measures = Object.fromEntries(Object.entries(now.measures).map(([name, text]) => [name, /[a-z"°]/i.test(text) ? text : text.replace(",", ".") + (name === "shoulder_slope" ? " deg" : unit)]));
  try {
    kept = (await ask("keep_person", { name: now.name, measures, figure: now.figure.join(", ") })).people;
    told.textContent = say("screen.kept", { name: now.name });
    showPeople();
  } catch (reason) {
    if (!(reason instanceof Told)) throw reason;
    told.textContent = reason.notes[0].message;
  }
}

async function refreshPeople() {
  if (!document.documentElement.hasAttribute("data-keeps")) return;
  const found = await ask("people").catch(() => ({ people: [], where: "" }));
  kept = found.people;
  const where = document.getElementById("kept-where");
  if (where) where.textContent = say("screen.keep_lead", { where: found.where });
  showPeople();
}

function showPeople() {
  const place = document.getElementById("people");
  if (!place) return;
  place.replaceChildren(...(kept.length ? [make("span", { class: "quiet" }, say("screen.people")), ...kept.map((one) => make("span", { class: "person" },
    make("button", { type: "button", onclick: () => choose(one) }, one.name),
    make("button", { type: "button", class: "forget", "aria-label": say("screen.forget", { name: one.name }), onclick: () => void forget(one) }, "×")))] : []));
}

function choose(one) {
  const inches = state().units === "in";
  const over = ([name, value]) => [name, String(Math.round((inches && name !== "shoulder_slope" ? value / 2.54 : value) * 100) / 100)];
  change({ name: one.name, measures: Object.fromEntries(Object.entries(one.measures).map(over)), figure: one.figure ? one.figure.split(", ") : [], who: "me" });
}

async function forget(one) {
  if (!confirm(say("screen.forget_sure", { name: one.name }))) return;
  kept = (await ask("forget_person", { name: one.name })).people;
  showPeople();
}
