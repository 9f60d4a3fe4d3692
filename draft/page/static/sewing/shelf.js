// The shelf: a card for each garment, drawn as its answer comes.

import { ask } from "../line.js";
import { make, picture } from "../leaf.js";
import { say } from "../words.js";
import { change } from "./state.js";

let shown = "";

export async function showShelf(list, now) {
  const key = `${now.language} ${now.units}`;
  if (shown === key) return;
  shown = key;
  const { garments } = await ask("shelf").catch(() => ({ garments: null }));
  if (!garments || shown !== key) return;
  const cards = garments.map((name) => make("li", { class: "card", "data-garment": name }, make("span", { class: "quiet" }, "…")));
  list.replaceChildren(...cards);
  await Promise.all(garments.map(async (name, number) => {
    const card = await ask("card", { about: name, garment: name, language: now.language, units: now.units }).catch(() => null);
    if (shown === key) cards[number].replaceChildren(...(card ? inside(name, card) : [make("p", {}, say("screen.no_card", { name }))]));
  }));
}

const inside = (name, card) => [
  make("button", { type: "button", class: "choose", onclick: () => { change({ garment: name }); scrollTo(0, 0); document.getElementById("garment-title").focus(); } },
    picture(card.flat, "", { class: "flat" }),
    make("span", { class: "title" }, card.title)),
  make("p", {}, card.garment),
  make("p", { class: "quiet" }, `${say("screen.sizes")} ${card.sizes}. ${card.cloth}`),
  card.skill ? make("p", { class: "quiet" }, card.skill) : null,
].filter(Boolean);
