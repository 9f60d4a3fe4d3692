// The sheet: all pieces in all sizes, zoomed and panned; each line is kept and given its new path, so nothing flickers.

import { later, make } from "../leaf.js";
import { Glass } from "./glass.js";
import { Keyed, draw, letter, set } from "./keyed.js";
import { arranged } from "./layout.js";

const STYLES = 7;
const LOW = 90; // mm
const LETTER = 6.6; // px, of a length on its edge
const LAYERS = ["other", "construction", "cuts", "lines", "combs", "inner", "hits", "points", "words"];

export class Sheet {
  constructor(parent, { label, length, picked, dragged, hovered }) {
    this.length = length;
    this.picked = picked;
    this.dragged = dragged;
    this.hovered = hovered;
    this.svg = draw("svg", { class: "sheet", tabindex: "0", role: "application", "aria-label": label });
    this.world = draw("g", { class: "world" }, this.svg);
    this.tag = make("div", { class: "tag", hidden: true });
    parent.replaceChildren(this.svg, this.tag);
    this.glass = new Glass(this.svg, () => this.bounds(), later(120, () => this.layers.has("dimensions") && this.nest && this.#extras()));
    this.base = new Keyed();
    this.extra = new Keyed();
    this.groups = new Map();
    this.slots = [];
    this.nest = null;
    this.body = 0;
    this.lit = new Set();
    this.layers = new Set(["cut", "notches", "points", "marks"]);
    this.over = {};
    this.#listen();
  }

  // ---- what is drawn

  // The pieces of a nest, `body` the size in hand, `all` whether the others are seen too.
  show(nest, body, all) {
    const before = this.nest;
    this.nest = nest;
    this.body = Math.min(body, nest.sizes.length - 1);
    this.all = all;
    this.#arrange();
    this.base.begin();
    for (const piece of nest.pieces) this.#piece(piece);
    this.base.end();
    if (!before) this.glass.fit();
    this.#extras();
    this.#toldAnew();
  }

  // Something laid over the pieces: `cutting`, `combs`, `construction`, `other`; null takes it away.
  lay(what, given) {
    this.over[what] = given;
    if (what === "construction") {
      this.over.blocks = given?.sheets.filter((sheet) => sheet.block) ?? [];
      if (this.nest) this.#arrange();
    }
    if (this.nest) this.#extras();
  }

  layer(name, is) {
    this.layers[is ? "add" : "delete"](name);
    this.svg.classList.toggle(`no-${name}`, !is);
    if (this.nest) this.#extras();
  }

  light(keys) {
    this.lit = new Set(keys);
    for (const hit of this.svg.querySelectorAll(".hit")) hit.classList.toggle("lit", this.lit.has(hit.dataset.edge));
  }

  fit() {
    this.glass.fit();
  }

  stale(is) {
    this.svg.classList.toggle("stale", is);
  }

  // ---- the pieces

  #arrange() {
    const before = this.slots.map((slot) => slot.name).join();
    this.slots = arranged(this.nest.pieces, this.over.blocks ?? [], this.slots, this.#aspect());
    if (this.glass.isFitted && before !== this.slots.map((slot) => slot.name).join()) this.glass.fit();
    const names = new Set(this.slots.map((slot) => slot.name));
    for (const [name, layers] of this.groups) {
      if (names.has(name)) continue;
      layers.holder.remove();
      this.groups.delete(name);
    }
    for (const slot of this.slots) {
      if (!this.groups.has(slot.name)) this.groups.set(slot.name, this.#layers(slot.name));
      set(this.groups.get(slot.name).holder, "transform", `translate(${slot.x.toFixed(2)} ${slot.y.toFixed(2)})`);
    }
  }

  #aspect() {
    const { width, height } = this.svg.getBoundingClientRect();
    return Math.max(0.3, Math.min(4, width / (height || 1)));
  }

  #layers(name) {
    const holder = draw("g", { "data-piece": name }, this.world);
    return { holder, ...Object.fromEntries(LAYERS.map((layer) => [layer, draw("g", { class: layer }, holder)])) };
  }

  #seen(k) {
    if (k === this.body) return " in-hand";
    return this.all ? "" : " off";
  }

  #piece(piece) {
    const { lines, hits, inner, words } = this.groups.get(piece.name);
    for (const edge of piece.edges) {
      const key = `${piece.name}.${edge.name}`;
      edge.d.forEach((d, k) => {
        const kind = `sew s${k % STYLES}${edge.fold ? " fold" : ""}${this.#seen(k)}`;
        this.base.part(`sew ${key} ${k}`, "path", lines, { d, class: kind });
      });
      const kind = this.lit.has(key) ? "hit lit" : "hit";
      this.base.part(`hit ${key}`, "path", hits, { d: edge.d[this.body], class: kind, "data-edge": key });
    }
    for (const [sort, found] of [["dart", piece.darts], ["mark", piece.marks]]) {
      for (const one of found) {
        const key = `${piece.name}.${one.name}`;
        one.d.forEach((d, k) => {
          const kind = `${sort} s${k % STYLES}${this.#seen(k)}`;
          this.base.part(`${sort} ${key} ${k}`, "path", inner, { d, class: kind, "data-inner": key });
        });
      }
    }
    this.#points(piece);
    this.#title(this.base, piece, piece.middle, piece.box, words);
  }

  #points(piece) {
    const parent = this.groups.get(piece.name).points;
    for (const point of piece.points) {
      const [cx, cy] = [point.x[this.body], point.y[this.body]];
      if (cx === null) continue;
      const key = `${piece.name}.${point.name}`;
      const circle = this.base.part(`point ${key}`, "circle", parent, { cx, cy, "data-point": key });
      const kind = point.moves ? `point moves ${point.moves}` : "point";
      set(circle, "class", circle.classList.contains("held") ? `${kind} held` : kind);
    }
  }

  // In the middle of a piece, or under one that is too low for it.
  #title(keyed, { name, title }, [x, y], box, parent) {
    const isLow = box[3] - box[1] < LOW;
    const given = { class: isLow ? "title under" : "title", x, y: isLow ? box[3] : y };
    letter(keyed.part(`title ${name}`, "text", parent, given), title);
  }

  // ---- what is laid over

  #extras() {
    this.extra.begin();
    for (const piece of this.nest.pieces) {
      const { combs, other } = this.groups.get(piece.name);
      this.#cut(piece);
      if (this.layers.has("dimensions")) this.#dimensions(piece);
      for (const comb of this.over.combs?.pieces[piece.name] ?? []) {
        this.extra.part(`teeth ${piece.name}.${comb.edge}`, "path", combs, { d: comb.teeth, class: "teeth" });
        this.extra.part(`tips ${piece.name}.${comb.edge}`, "path", combs, { d: comb.tips, class: "tips" });
      }
      for (const edge of this.over.other?.pieces[piece.name] ?? []) {
        const d = edge.d[this.body] ?? "";
        this.extra.part(`other ${piece.name}.${edge.name}`, "path", other, { d, class: "old" });
      }
    }
    for (const sheet of this.over.construction?.sheets ?? []) this.#construction(sheet);
    this.extra.end();
  }

  #cut(piece) {
    const found = this.over.cutting?.pieces[piece.name];
    const { cuts } = this.groups.get(piece.name);
    const draws = (name) => (found && this.layers.has(name) ? found[name === "cut" ? "cut" : "notches"] : []);
    draws("cut").forEach((d, k) => {
      this.extra.part(`cut ${piece.name} ${k}`, "path", cuts, { d, class: `cut s${k % STYLES}${this.#seen(k)}` });
    });
    draws("notches").forEach((strokes, k) => {
      this.extra.part(`notch ${piece.name} ${k}`, "path", cuts, { d: strokes.join(""), class: `notch${this.#seen(k)}` });
    });
  }

  #dimensions(piece) {
    const layers = this.groups.get(piece.name);
    for (const edge of piece.edges) {
      const line = this.base.get(`hit ${piece.name}.${edge.name}`);
      const whole = edge.d[this.body] ? line.getTotalLength() : 0;
      const words = `${edge.name.replaceAll("_", " ")} ${this.length(edge, this.body)}`;
      if (whole < words.length * LETTER * this.glass.mm) continue;
      const [at, near] = [line.getPointAtLength(whole / 2), line.getPointAtLength(whole / 2 + 0.5)];
      let angle = (Math.atan2(near.y - at.y, near.x - at.x) * 180) / Math.PI;
      if (angle > 90 || angle <= -90) angle += 180;
      const transform = `translate(${at.x.toFixed(1)} ${at.y.toFixed(1)}) rotate(${angle.toFixed(1)})`;
      const text = this.extra.part(`long ${piece.name}.${edge.name}`, "text", layers.words, { class: "long", transform });
      letter(text, words);
    }
  }

  #construction(sheet) {
    const layers = this.groups.get(sheet.name);
    if (!layers) return;
    const path = (key, d, kind, name = "") => {
      const given = name ? { "data-inner": `${sheet.name}.${name}` } : {};
      this.extra.part(`${key} ${sheet.name}`, "path", layers.construction, { d, class: kind, ...given });
    };
    sheet.before.forEach((d, k) => path(`before ${k}`, d, "before"));
    for (const line of sheet.lines) path(`line ${line.name}`, line.d, "line", line.name);
    if (!sheet.block) return;
    for (const edge of sheet.edges) path(`block ${edge.name}`, edge.d, "block", edge.name);
    for (const point of sheet.points) {
      const given = { cx: point.at[0], cy: point.at[1], class: "point", "data-inner": `${sheet.name}.${point.name}` };
      this.extra.part(`at ${point.name} ${sheet.name}`, "circle", layers.construction, given);
    }
    const slot = this.slots.find((one) => one.name === sheet.name);
    const [left, top, right, bottom] = slot.box;
    this.#title(this.extra, sheet, [(left + right) / 2, (top + bottom) / 2], slot.box, layers.words);
  }

  // ---- hands

  bounds() {
    if (!this.slots.length) return [0, 0, 100, 100];
    const low = this.slots.map((slot) => [slot.x + slot.box[0], slot.y + slot.box[1]]);
    const high = this.slots.map((slot) => [slot.x + slot.box[2], slot.y + slot.box[3]]);
    const edge = (rows, axis, pick) => pick(...rows.map((row) => row[axis]));
    return [edge(low, 0, Math.min), edge(low, 1, Math.min), edge(high, 0, Math.max), edge(high, 1, Math.max)];
  }

  #listen() {
    this.svg.addEventListener("pointerdown", (event) => this.#down(event));
    this.svg.addEventListener("pointermove", (event) => this.#hover(event));
    this.svg.addEventListener("pointerleave", () => this.#tell(null));
    this.svg.addEventListener("click", (event) => {
      if (this.glass.moved) return;
      const found = this.#at(event);
      if (found) this.picked(found);
    });
  }

  #at(event) {
    const { edge, point, inner } = event.target.dataset ?? {};
    const key = point ?? edge ?? inner;
    return key ? { sort: point ? "point" : edge ? "edge" : "inner", key } : null;
  }

  #down(event) {
    const circle = event.target.closest?.(".moves");
    if (!circle || event.button) return;
    event.stopPropagation();
    event.preventDefault();
    const [piece, point] = parted(circle.dataset.point);
    this.glass.held = true;
    circle.setPointerCapture(event.pointerId);
    circle.classList.add("held");
    const move = (now) => {
      const at = this.glass.place(now);
      const slot = this.slots.find((one) => one.name === piece);
      this.glass.moved = true;
      this.dragged(piece, point, at.x - slot.x, at.y - slot.y);
    };
    const done = () => {
      this.glass.held = false;
      circle.classList.remove("held");
      circle.removeEventListener("pointermove", move);
    };
    circle.addEventListener("pointermove", move);
    circle.addEventListener("pointerup", done, { once: true });
    circle.addEventListener("pointercancel", done, { once: true });
  }

  #hover(event) {
    if (event.buttons) return;
    const found = this.#at(event);
    const key = found ? `${found.sort} ${found.key}` : "";
    if (key !== this.overKey) {
      this.overKey = key;
      this.#tell(found ? this.hovered(found) : null);
    }
    this.overWhat = found;
    if (found) {
      const box = this.svg.getBoundingClientRect();
      const right = event.clientX - box.left > box.width / 2;
      this.tag.style.left = right ? "" : `${event.clientX - box.left + 14}px`;
      this.tag.style.right = right ? `${box.right - event.clientX + 14}px` : "";
      this.tag.style.top = `${Math.min(event.clientY - box.top + 14, box.height - 60)}px`;
    }
  }

  #tell(words) {
    this.tag.hidden = !words;
    if (words) this.tag.replaceChildren(...words);
    else this.overKey = "";
  }

  // What is told of the thing under the pointer, anew: it may have other figures now, or be gone.
  #toldAnew() {
    if (this.tag.hidden || !this.overKey || !this.overWhat) return;
    const { sort, key } = this.overWhat;
    const isThere = sort === "inner" || this.svg.querySelector(`[data-${sort}="${CSS.escape(key)}"]`);
    this.#tell(isThere ? this.hovered(this.overWhat) : null);
  }
}

export function parted(key) {
  const dot = key.indexOf(".");
  return [key.slice(0, dot), key.slice(dot + 1)];
}
