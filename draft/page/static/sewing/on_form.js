// How it will sit: the cloth settles on a form of her measures while she watches, and may be stopped.

import { ask, drop, Superseded, Told } from "../line.js";
import { make, picture, show } from "../leaf.js";
import { say } from "../words.js";
import { asked } from "./state.js";
import { showTold } from "./result.js";

const ARMS = [85, 70, 50, 20, 0, -30, -60];
const USUAL = 50;
let built = "";
let shownFor = "";
let running = null;
let latest = null;
let current = "";
let arms = USUAL;

const key = (now) => JSON.stringify(asked(now));
const part = (name) => document.getElementById(`on-form-${name}`);

export function showOnForm(place, now) {
  latest = now;
  current = key(now);
  const spoken = JSON.stringify([now.garment, now.language, now.units]);
  if (built !== spoken) {
    if (running) drop(running);
    built = spoken;
    shownFor = "";
    place.replaceChildren(
      make("h3", {}, say("sit.section")),
      make("p", { class: "quiet" }, say("screen.on_form_lead")),
      make("div", { class: "bar" },
        make("label", { for: "on-form-arms" }, say("screen.on_form_arms")),
        make("select", { id: "on-form-arms", onchange: (event) => { arms = Number(event.target.value); } },
          ...ARMS.map((angle) => make("option", { value: String(angle), selected: angle === arms }, said(angle)))),
        make("button", { type: "button", id: "on-form-begin", onclick: () => void begin(latest) }, say("screen.on_form_begin")),
        make("button", { type: "button", id: "on-form-stop", hidden: true, onclick: () => running && drop(running) }, say("screen.on_form_stop"))),
      make("progress", { id: "on-form-share", max: "1", hidden: true, "aria-label": say("sit.settling") }),
      make("p", { id: "on-form-status", role: "status", class: "quiet" }),
      make("div", { id: "on-form-told" }), make("div", { id: "on-form-shown" }));
  }
  tellStale();
}

// What is shown, or settles still, was asked for before something was changed.
function tellStale() {
  const stale = !running && shownFor !== "" && shownFor !== current;
  part("shown").classList.toggle("stale", stale);
  if (stale) part("status").textContent = say("screen.on_form_before");
  else if (part("status").textContent === say("screen.on_form_before")) part("status").textContent = "";
}

const said = (angle) => say(angle > 0 ? "screen.arms_below" : angle < 0 ? "screen.arms_above" : "screen.arms_level", { angle: Math.abs(angle) });

async function begin(now) {
  if (running) return;
  const mine = key(now);
  const image = make("img", { class: "settling" });
  working(true);
  part("status").textContent = say("screen.on_form_waiting");
  part("told").replaceChildren();
  shownFor = "";
  part("shown").classList.remove("stale");
  part("shown").replaceChildren(image);
  try {
    running = ask("on_form", { ...asked(now), arms }, (words) => step(JSON.parse(words), image));
    const gave = await running;
    shownFor = mine;
    part("status").textContent = "";
    shown(gave);
  } catch (reason) {
    part("shown").replaceChildren();
    part("status").textContent = reason instanceof Superseded ? say("screen.on_form_stopped") : "";
    if (reason instanceof Told) showTold(part("told"), reason.notes);
    else if (!(reason instanceof Superseded)) throw reason;
  } finally {
    running = null;
    working(false);
    tellStale();
  }
}

function step(told, image) {
  if (told.picture) show(image, told.picture, say("sit.settling"));
  if (told.share === undefined) return;
  part("share").value = told.share;
  part("status").textContent = say(`screen.on_form_${told.what}`);
}

function working(is) {
  const held = document.activeElement === part("stop") || document.activeElement === document.body;
  part("share").hidden = !is;
  if (is) part("share").removeAttribute("value");
  part("stop").hidden = !is;
  part("begin").disabled = is;
  if (is) part("stop").focus({ preventScroll: true });
  else if (held) part("begin").focus({ preventScroll: true });
}

function shown(gave) {
  if (gave.refused) {
    part("shown").replaceChildren(make("p", { class: "note" }, gave.refused));
    return;
  }
  const list = (title, lines) => (lines.length ? [make("h4", {}, title), make("ul", {}, ...lines.map((line) => make("li", {}, line)))] : []);
  part("shown").replaceChildren(
    make("p", {}, make("strong", {}, gave.not_you), ` ${gave.under}`),
    make("div", { class: "sides" }, ...gave.pictures.map((one) => picture(one.picture, one.shows, { class: "sheet" }))),
    picture(gave.key, say("screen.on_form_key"), { class: "sheet key" }),
    ...list(say("sit.words"), gave.said), ...list(say("sit.change"), gave.change),
    make("p", { class: "quiet" }, gave.not_said));
}
