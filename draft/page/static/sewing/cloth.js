// Of which cloth: a usual one, or her own measured on the screen; its width, what it takes in the wash, what is there.

import { make } from "../leaf.js";
import { say } from "../words.js";
import { change, state, withUnit } from "./state.js";
import { openRuler } from "./ruler.js";

const USUAL = ["", "stable", "moderate", "stretchy", "very_stretchy", "rib", "own"];
let built = "";

export function showCloth(place, now, choices) {
  const knit = Object.keys(choices.stretch).length > 0;
  const own = "stretch_across" in now.cloth || now.cloth.own === "yes";
  const key = JSON.stringify([choices.title, now.language, now.units, knit, own]);
  if (built !== key) {
    built = key;
    place.replaceChildren(...(knit ? [kinds(choices)] : [make("p", { class: "quiet" }, say("screen.woven"))]), ...(own && knit ? [figures()] : []), width(now), washing(), have(now));
  }
  const kind = place.querySelector("#cloth-kind");
  if (kind) kind.value = own ? "own" : now.cloth.name ?? "";
  for (const input of place.querySelectorAll("[data-cloth]")) if (document.activeElement !== input) input.value = (now.cloth[input.dataset.cloth] ?? "").replace(" %", "");
  for (const input of place.querySelectorAll("[data-plain]")) {
    if (input.type === "checkbox") input.checked = now[input.dataset.plain];
    else if (document.activeElement !== input) input.value = now[input.dataset.plain];
  }
}

const kinds = (choices) => make("div", { class: "entry" },
  make("label", { for: "cloth-kind" }, say("screen.cloth_kind")),
  make("select", { id: "cloth-kind", onchange: (event) => {
    const name = event.target.value;
    change({ cloth: name === "own" ? { own: "yes" } : name ? { name } : {}, unwashed: false });
  } }, ...USUAL.map((name) => make("option", { value: name }, name ? say(`screen.cloth_${name}`) : say("screen.cloth_suits", { suits: choices.stretch.stretch_across?.now ?? "" })))));

const figures = () => make("div", { class: "own-cloth" },
  make("p", { class: "quiet" }, say("screen.cloth_measure")),
  ...["stretch_across", "stretch_down", "recovery"].map((name) => percent(name)),
  make("button", { type: "button", onclick: () => openRuler((share) => set("stretch_across", `${Math.round(share * 100)}`)) }, say("screen.ruler_open")));

const percent = (name) => make("div", { class: "measure" },
  make("label", { for: `c-${name}` }, say(`screen.${name}`)),
  make("span", { class: "entry" }, make("input", { type: "text", inputmode: "decimal", id: `c-${name}`, "data-cloth": name, onchange: (event) => set(name, event.target.value) }), make("span", { class: "unit" }, "%")));

function set(name, text) {
  const cloth = { ...state().cloth };
  const bare = text.trim().replace(",", ".").replace(/\s*%$/, "");
  if (bare) cloth[name] = `${bare} %`;
  else delete cloth[name];
  if (name.startsWith("shrinkage") && !Object.keys(cloth).some((key) => key.startsWith("shrinkage"))) return change({ cloth, unwashed: false });
  return change({ cloth });
}

const width = (now) => make("div", { class: "entry" },
  make("label", { for: "cloth-width" }, say("screen.cloth_width")),
  make("input", { type: "text", id: "cloth-width", inputmode: "decimal", "data-plain": "widths", placeholder: now.units === "in" ? "58" : "148", onchange: (event) => change({ widths: event.target.value.trim() }) }),
  make("span", { class: "unit" }, say(now.units === "in" ? "screen.in" : "screen.cm_short")),
  make("label", { class: "way" }, make("input", { type: "checkbox", "data-plain": "one_way", onchange: (event) => change({ one_way: event.target.checked }) }), say("screen.one_way")));

const washing = () => make("details", {}, make("summary", {}, say("screen.washing")),
  make("p", { class: "quiet" }, say("screen.washing_lead")),
  percent("shrinkage_across"), percent("shrinkage_down"),
  make("label", { class: "way" }, make("input", { type: "checkbox", "data-plain": "unwashed", onchange: (event) => change({ unwashed: event.target.checked }) }), say("screen.unwashed")));

const have = (now) => make("div", { class: "entry" },
  make("label", { for: "cloth-have" }, say("screen.have")),
  make("input", { type: "text", id: "have-long", inputmode: "decimal", "aria-label": say("screen.have_long"), placeholder: say("screen.have_long"), value: part(now, 0), onchange: gather }),
  make("span", { "aria-hidden": "true" }, "×"),
  make("input", { type: "text", id: "cloth-have", inputmode: "decimal", "aria-label": say("screen.have_wide"), placeholder: say("screen.have_wide"), value: part(now, 1), onchange: gather }),
  make("span", { class: "unit" }, say(now.units === "in" ? "screen.in" : "screen.cm_short")));

// Without its unit where that is the one that stands behind the fields.
const part = (now, number) => (now.have.split(" x ")[number] ?? "").replace(now.units === "in" ? /\s*in\s*$/ : /\s*cm\s*$/, "").trim();

// A length alone is of the width named above, or of the usual one.
function gather() {
  const unit = state().units === "in" ? " in" : " cm";
  const [long, wide, usual] = ["have-long", "cloth-have", "cloth-width"].map((id) => document.getElementById(id));
  if (long.value.trim() && !wide.value.trim()) wide.value = usual.value.trim() || usual.placeholder;
  const both = [long, wide].map((one) => one.value.trim());
  change({ have: both.every(Boolean) ? both.map((one) => withUnit(one, unit)).join(" x ") : "" });
}
