// Just the files that she needs: her paper, the booklet, a projector or a print shop; made while she sees how far it is.

import { ask, Superseded, Told } from "../line.js";
import { make } from "../leaf.js";
import { say } from "../words.js";
import { asked, change, state } from "./state.js";
import { showTold } from "./result.js";

const PAGES = ["a4", "letter", "a3", "legal", "tabloid"];
const LARGE = ["a0", "roll-36in", "projector"];
const MORE = ["booklet", "drawings", "tables"];
let built = "";
let made = "";

export function showTake(place, now, choices) {
  const key = JSON.stringify([choices.title, now.language, now.units]);
  if (built !== key) {
    built = key;
    place.replaceChildren(
      make("div", { class: "entry" }, make("label", { for: "page" }, say("screen.page")),
        make("select", { id: "page", onchange: (event) => change({ page: event.target.value }) }, ...[...PAGES, "none"].map((page) => make("option", { value: page }, say(`screen.page_${page}`)))),
        make("span", { id: "page-count", class: "quiet" })),
      boxes("large", LARGE), boxes("wanted", MORE),
      make("p", { class: "quiet" }, say("screen.take_careful")),
      make("button", { type: "button", class: "main", id: "make", onclick: () => void takeHome() }, say("screen.make_files")),
      make("p", { id: "making", role: "status", class: "quiet" }),
      make("div", { id: "take-told" }), make("ul", { id: "files" }));
  }
  place.querySelector("#page").value = now.page;
  for (const box of place.querySelectorAll("input[data-list]")) box.checked = now[box.dataset.list].includes(box.value);
  const current = JSON.stringify([asked(now), now.page, now.large, now.wanted]);
  if (made && made !== current) {
    made = "";
    place.querySelector("#files").replaceChildren();
    place.querySelector("#making").textContent = say("screen.made_before");
  }
}

const boxes = (list, names) => make("fieldset", { class: "ways" }, make("legend", { class: "quiet" }, say(`screen.${list}`)),
  ...names.map((name) => make("label", { class: "way" }, make("input", { type: "checkbox", value: name, "data-list": list, onchange: (event) => {
    const others = state()[list].filter((one) => one !== name);
    change({ [list]: event.target.checked ? [...others, name] : others });
  } }), say(`screen.${list}_${name.replace("-", "_")}`))));

async function takeHome() {
  const now = state();
  const button = document.getElementById("make");
  const told = document.getElementById("making");
  const current = JSON.stringify([asked(now), now.page, now.large, now.wanted]);
  button.disabled = true;
  told.textContent = say("screen.making");
  document.getElementById("files").replaceChildren();
  try {
    const wanted = [...now.wanted, "pattern"];
    const gave = await ask("take", { ...asked(now), pages: now.page === "none" ? [] : [now.page], large: now.large, wanted }, (name) => { told.textContent = say("screen.making_file", { name }); });
    made = current;
    document.getElementById("take-told").replaceChildren();
    told.textContent = say("screen.made");
    const sorted = [...gave.files].sort((a, b) => Number(b.name.endsWith(".zip")) - Number(a.name.endsWith(".zip")));
    document.getElementById("files").replaceChildren(...sorted.map((file) => make("li", {}, make("a", { href: file.href, download: file.name }, called(file.name)), make("span", { class: "quiet" }, ` ${file.name}, ${size(file.size)}`))));
    document.querySelector("#files a")?.focus();
    document.getElementById("files").scrollIntoView({ block: "nearest" });
  } catch (reason) {
    told.textContent = "";
    if (reason instanceof Told) showTold(document.getElementById("take-told"), reason.notes);
    else if (!(reason instanceof Superseded)) throw reason;
  } finally {
    button.disabled = false;
  }
}

// What a file is for, in a word: its name alone does not say what to print.
function called(name) {
  const paper = /pattern-(\w+)\.pdf$/.exec(name);
  if (paper && PAGES.includes(paper[1])) return say("screen.file_pattern", { paper: say(`screen.page_${paper[1]}`) });
  const sort = [["zip", /\.zip$/], ["large_print", /large-print\.pdf$/], ["booklet", /booklet\.pdf$/], ["booklet_screen", /booklet\.html$/], ["projector", /projector\.pdf$/]].find(([, ends]) => ends.test(name));
  return sort ? say(`screen.file_${sort[0]}`) : name;
}

const size = (bytes) => (bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`);
