// How it should be: a control for each style that the pattern declares, choices first.

import { later, make } from "../leaf.js";
import { say } from "../words.js";
import { change, state } from "./state.js";

let built = "";

export function showHow(place, now, choices) {
  const key = JSON.stringify([choices.title, now.language, now.units]);
  if (built !== key) {
    built = key;
    const first = choices.styles.filter((style) => style.options);
    const amounts = choices.styles.filter((style) => style.unit !== undefined);
    place.replaceChildren(
      ...first.map(choice),
      make("details", { open: !first.length }, make("summary", {}, say("screen.finer", { count: amounts.length })), ...amounts.map(slider)),
      make("button", { type: "button", class: "as-designed", onclick: () => change({ styles: {} }) }, say("screen.as_designed")));
  }
  for (const style of choices.styles) {
    const text = now.styles[style.name];
    if (style.options) for (const radio of place.querySelectorAll(`input[name="style-${style.name}"]`)) radio.checked = radio.value === (text ?? style.now);
    else if (style.unit !== undefined) set(place, style, text);
  }
  place.querySelector(".as-designed").hidden = !Object.keys(now.styles).length;
}

const choice = (style) => make("fieldset", { class: "choice" }, make("legend", {}, style.words),
  make("div", { class: "ways" }, ...style.options.map((option) => make("label", { class: "way" },
    make("input", { type: "radio", name: `style-${style.name}`, value: option.value, onchange: () => choose(style, option.value) }), option.title))));

function choose(style, value, settled = true) {
  const styles = { ...state().styles };
  if (value === style.now) delete styles[style.name];
  else styles[style.name] = value;
  change({ styles }, settled);
}

const unitOf = (style) => (style.unit === "deg" ? say("screen.degrees") : style.unit === "cm" ? say("screen.cm_short") : style.unit === "in" ? say("screen.in") : style.unit);
const sent = (style, value) => `${value} ${style.unit}`.trim();

function slider(style) {
  const id = `s-${style.name}`;
  const drag = later(40, (value) => choose(style, sent(style, value), false));
  return make("div", { class: "slider" },
    make("label", { for: id }, style.words),
    make("span", { class: "entry" },
      make("input", { type: "range", id, min: style.low, max: style.high, step: style.step, "data-style": style.name,
        oninput: (event) => { shown(style, Number(event.target.value)); drag(event.target.value); },
        onchange: (event) => choose(style, sent(style, event.target.value)) }),
      make("output", { for: id, id: `o-${style.name}` })));
}

function set(place, style, text) {
  const input = place.querySelector(`[data-style="${style.name}"]`);
  if (!input || document.activeElement === input && input.matches(":active")) return;
  const value = text === undefined ? style.value : Number.parseFloat(text);
  input.value = value;
  shown(style, value);
}

function shown(style, value) {
  const told = document.getElementById(`o-${style.name}`);
  if (told) told.textContent = `${new Intl.NumberFormat(document.documentElement.lang, { maximumFractionDigits: 3 }).format(value)} ${unitOf(style)}`;
}
