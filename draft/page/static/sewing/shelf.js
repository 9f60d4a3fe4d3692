// The shelf: garments in groups, narrowed by what is looked for; a card for each, drawn as its answer comes.

import { ask } from "../line.js";
import { make, picture } from "../leaf.js";
import { say } from "../words.js";
import { change, state } from "./state.js";

const MADE = ["", "tops", "skirts", "trousers"];
const CLOTHS = ["", "knit", "woven"];
let shown = "";

export async function showShelf(place, now) {
  const key = `${now.language} ${now.units}`;
  if (shown !== key) {
    shown = key;
    const { groups } = await ask("shelf").catch(() => ({ groups: null }));
    if (!groups || shown !== key) { if (shown === key) shown = ""; return; }
    place.replaceChildren(narrowing(), ...groups.map(group));
    const cards = [...place.querySelectorAll(".card")];
    void Promise.all(cards.map((card) => filled(card, now, key)));
  }
  narrowed(place, state());
}

const narrowing = () => make("div", { class: "narrowing" },
  pills("made", "screen.shelf_made", MADE.map((one) => [one, say(one ? `screen.shelf_${one}` : "screen.shelf_any")])),
  pills("of", "screen.shelf_cloth", CLOTHS.map((one) => [one, say(one ? `screen.shelf_${one}` : "screen.shelf_any_cloth")])),
  make("p", { id: "shelf-count", class: "quiet", role: "status" }));

const pills = (name, title, options) => make("fieldset", { class: "ways" }, make("legend", {}, say(title)),
  ...options.map(([value, said]) => make("label", { class: "way" },
    make("input", { type: "radio", name: `shelf-${name}`, value, onchange: () => change({ [name]: value }) }), said)));

const group = (one) => make("section", { class: "kind", "aria-labelledby": `kind-${one.name}` },
  make("h2", { id: `kind-${one.name}` }, say(one.name === "own" ? "screen.shelf_own_group" : `screen.shelf_group_${one.name}`)),
  make("ul", { class: "cards" }, ...one.garments.map((garment) => make("li", {
    class: "card", "data-garment": garment.name, "data-made": garment.made, "data-of": garment.knit === null ? "" : garment.knit ? "knit" : "woven",
  }, make("span", { class: "quiet" }, "…")))));

// Hide what is not looked for; a file of her own always stands there.
function narrowed(place, now) {
  for (const input of place.querySelectorAll(".narrowing input")) input.checked = now[input.name.replace("shelf-", "")] === input.value;
  const fits = (asked, is) => !asked || !is || asked === is;
  for (const card of place.querySelectorAll(".card")) card.hidden = !(fits(now.made, card.dataset.made) && fits(now.of, card.dataset.of));
  for (const kind of place.querySelectorAll(".kind")) {
    const count = kind.querySelectorAll(".card:not([hidden])").length;
    kind.hidden = !count;
    kind.classList.toggle("many", count > 2);
  }
  const count = place.querySelectorAll(".card:not([hidden])").length;
  const told = place.querySelector("#shelf-count");
  if (told) told.textContent = count > 1 ? say("screen.shelf_count", { count }) : say(count ? "screen.shelf_count_one" : "screen.shelf_none");
}

async function filled(place, now, key) {
  const name = place.dataset.garment;
  const card = await ask("card", { about: name, garment: name, language: now.language, units: now.units }).catch(() => null);
  if (shown === key) place.replaceChildren(...(card ? inside(name, card) : [make("p", {}, say("screen.no_card", { name }))]));
}

const inside = (name, card) => [
  make("button", { type: "button", class: "choose", onclick: () => { change({ garment: name }); scrollTo(0, 0); document.getElementById("garment-title").focus(); } },
    picture(card.flat, "", { class: "flat" }),
    make("span", { class: "title" }, card.title)),
  make("p", {}, card.garment),
  make("p", { class: "quiet" }, `${say("screen.sizes")} ${card.sizes}. ${card.cloth}`),
  card.steps ? make("p", { class: "quiet" }, say("screen.steps_to_sew", { count: card.steps })) : null,
  card.skill ? make("p", { class: "quiet" }, card.skill) : null,
].filter(Boolean);
