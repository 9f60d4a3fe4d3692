// The sewist's leaf: from a garment on the shelf to the files that she prints.

import { ask, Told, Superseded, listen } from "../line.js";
import { language, say, speak } from "../words.js";
import { later } from "../leaf.js";
import { begin, canRedo, canUndo, change, onChange, showFirst, state } from "./state.js";
import { showShelf } from "./shelf.js";
import { showWho } from "./who.js";
import { showHow } from "./how.js";
import { showCloth } from "./cloth.js";
import { showResult, showTold } from "./result.js";
import { showOnForm } from "./on_form.js";
import { showTake } from "./take.js";

const at = (id) => document.getElementById(id);
let choices = null;
let [chosen, known] = ["", ""]; // of which garment, chart, units and language choices are asked for, and are there

const usual = () => {
  const spoken = (navigator.languages ?? [navigator.language]).map((one) => one.slice(0, 2));
  const known = document.documentElement.dataset.languages.split(" ");
  const inches = /-(US|CA|LR)$/.test(navigator.language);
  return { language: spoken.find((one) => known.includes(one)) ?? "en", units: inches ? "in" : "cm", page: inches ? "letter" : "a4" };
};

const keyOfChoices = (now) => JSON.stringify([now.garment, now.chart, now.units, now.language]);

async function fresh(now) {
  if (now.language !== language()) await speak(now.language);
  at("units").value = now.units;
  at("language").value = now.language;
  at("undo").disabled = !canUndo();
  at("redo").disabled = !canRedo();
  at("shelf").hidden = Boolean(now.garment);
  at("work").hidden = !now.garment;
  for (const leaf of document.querySelectorAll("[data-leaf]"))
    leaf.toggleAttribute("aria-current", leaf.dataset.leaf === location.pathname);
  if (!now.garment) {
    at("peek").hidden = true;
    chosen = "";
    document.title = `plainseam: ${say("screen.shelf_title")}`;
    await showShelf(at("cards"), now);
    return;
  }
  if (keyOfChoices(now) !== chosen) {
    const key = (chosen = keyOfChoices(now));
    let found;
    try {
      found = await ask("choices", { garment: now.garment, chart: now.chart, units: now.units, language: now.language });
    } catch (reason) {
      if (chosen === key) chosen = "";
      if (reason instanceof Told) showTold(at("told"), reason.notes);
      else if (!(reason instanceof Superseded)) throw reason;
      return;
    }
    if (chosen !== key) return;
    [choices, known, now] = [found, key, state()]; // what was typed meanwhile is not lost
    showFirst(choices.sizes);
    at("garment-title").textContent = choices.title;
    document.title = `plainseam: ${choices.title}`;
  }
  if (known !== chosen) return;
  showWho(at("who"), now, choices);
  showHow(at("how"), now, choices);
  showCloth(at("cloth"), now, choices);
  showOnForm(at("on-form"), now);
  showTake(at("take"), now, choices);
  soon(now, choices);
}

const soon = later(60, (now, known) => showResult(now, known));

addEventListener("keydown", (event) => {
  const typing = event.target.closest?.("input[type=text], input[type=number], textarea");
  if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  event.preventDefault();
  if (event.shiftKey) history.forward();
  else if (canUndo()) history.back();
});
at("undo").addEventListener("click", () => history.back());
at("redo").addEventListener("click", () => history.forward());
at("units").addEventListener("change", (event) => change(inOtherUnits(event.target.value)));
at("language").addEventListener("change", (event) => change({ language: event.target.value }));
at("other").addEventListener("click", (event) => {
  event.preventDefault();
  change({ garment: "", chart: "", styles: {} });
  scrollTo(0, 0);
});

// What was typed without a unit is of the old unit: it is written over in the new one.
function inOtherUnits(units) {
  const now = state();
  const factor = units === "in" ? 1 / 2.54 : 2.54;
  const inOther = (text) => (/^\d+([.,]\d+)?$/.test(text) ? String(Math.round(Number(text.replace(",", ".")) * factor * 100) / 100) : text);
  const over = ([name, text]) => [name, name === "shoulder_slope" ? text : inOther(text)];
  return { units, measures: Object.fromEntries(Object.entries(now.measures).map(over)), widths: inOther(now.widths) };
}

onChange((now) => void fresh(now));
listen("file", () => state().garment === "file" && change({}, false));
begin(usual());
