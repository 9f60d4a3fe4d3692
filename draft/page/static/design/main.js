// The designer's leaf: the text on one side, what it draws on the other, each following the other at once.

import { Superseded, Told, ask, listen } from "../line.js";
import { later, make } from "../leaf.js";
import { language, say, speak } from "../words.js";
import { plainArea } from "./area.js";
import { Drawer } from "./drawer.js";
import { FileKept } from "./file.js";
import { inUnit, length, plain } from "./format.js";
import { book, changesList, lengthsTable, notesList, seamsList, stylesForm } from "./panels.js";
import { Sheet, parted } from "./sheet.js";
import { NumberSlider } from "./slider.js";
import { listed, put, read, state } from "./state.js";
import { strip } from "./strip.js";
import { People } from "./whom.js";

const by = (id) => document.getElementById(id);
const LAYERS = ["cut", "notches", "points", "marks", "dimensions", "combs", "construction", "before"];
const USUALLY_ON = new Set(["cut", "notches", "points", "marks"]);
const TABS = ["notes", "seams", "lengths", "styles", "tutorial", "words"];

class Leaf {
  async start() {
    read();
    await speak(localStorage.getItem("language") ?? navigator.language.slice(0, 2));
    state.units ||= localStorage.getItem("units") ?? "cm";
    inUnit(state.units);
    this.notes = [];
    this.books = {};
    this.panelSoon = later(150, () => this.panel());
    this.nest = null;
    const garment = state.garment || (document.documentElement.dataset.file ? "file" : "marlpit");
    this.opened = await ask("open", { garment });
    put({ garment });
    this.sheet = new Sheet(by("sheet"), {
      label: say("design.sheet"),
      length: (edge, body) => this.#long(edge, body),
      picked: (found) => this.#picked(found),
      hovered: (found) => this.#hovered(found),
      dragged: (...given) => this.#drag(...given),
    });
    this.drawer = new Drawer({ text: () => this.editor.text(), whom: () => this.people.asked(), leaf: this });
    this.people = new People(by("whom"), this.opened.charts, () => this.#whomChanged());
    await this.#edit();
    this.slider = new NumberSlider(this.editor);
    this.editor.set(this.opened.text);
    this.file = new FileKept(this.editor, by("told"), by("save"), this.opened);
    this.#controls();
    this.drawer.draw();
    this.#tabs();
    listen("file", (said) => this.file.saved(said.text) && this.changed());
    addEventListener("hashchange", () => location.reload());
    addEventListener("beforeunload", (event) => this.file.isDirty() && event.preventDefault());
    document.documentElement.dataset.ready = "yes";
  }

  async #edit() {
    const given = {
      label: say("design.text"),
      words: this.opened.words,
      nonce: document.documentElement.dataset.nonce,
      changed: () => this.changed(),
      moved: () => this.#moved(),
      complete: async (at) => (await this.quiet("complete", { at }))?.found,
      hover: (at) => this.quiet("hover", { at, size: this.size() }),
      saves: () => this.file.save(),
      step: (way) => this.slider.step(way),
      say: { phrases: {} },
    };
    if ("editor" in by("main").dataset) {
      try {
        const { richEditor } = await import("./editor.js");
        this.editor = richEditor(by("editor"), given);
        return;
      } catch (reason) {
        console.warn(reason);
      }
    }
    by("plain").hidden = false;
    this.editor = plainArea(by("editor"), given);
    by("editor").addEventListener("keydown", (event) => {
      const way = event.altKey && { ArrowUp: 1, ArrowDown: -1 }[event.key];
      if (way && this.slider.step(way)) event.preventDefault();
      if ((event.ctrlKey || event.metaKey) && event.key === "s") {
        event.preventDefault();
        this.file.save();
      }
    });
  }

  // Ask about the text as it stands; nothing where it cannot be told, and why not to `refused`.
  async quiet(verb, given = {}, refused = () => {}) {
    try {
      return await ask(verb, { ...this.drawer.asked(), ...given });
    } catch (reason) {
      if (reason instanceof Told) refused(reason);
      if (reason instanceof Told || reason instanceof Superseded) return null;
      throw reason;
    }
  }

  // ---- what changes

  changed() {
    this.file?.look();
    this.drawer?.draw();
  }

  #moved() {
    this.slider?.look();
    this.#lightCursor();
  }

  size() {
    return this.nest?.sizes[this.body()] ?? state.size;
  }

  body() {
    const found = this.nest?.sizes.indexOf(state.size) ?? -1;
    return found >= 0 ? found : Math.floor((this.nest?.sizes.length ?? 1) / 2);
  }

  // A new drawing is there.
  drawn(nest) {
    const sizes = this.nest?.sizes.join() ?? "";
    this.nest = nest;
    if (sizes !== nest.sizes.join()) this.#sizes();
    this.sheet.show(nest, this.body(), state.all);
    this.sheet.stale(false);
    const join = nest.joins.find((one) => one.name === state.join);
    if (join && !this.sheet.lit.size) this.sheet.light(join.sides.flat());
    by("drawing-title").textContent = nest.title;
    document.title = `${nest.title} – plainseam`;
    this.#status();
    if (["lengths", "seams"].includes(state.tab)) this.panelSoon();
  }

  stale() {
    this.sheet.stale(true);
    this.isStale = true;
    this.#status();
  }

  // What takes longer than the lines, once they rest.
  settled(what, given) {
    if (what === "cutting" || what === "combs" || what === "construction" || what === "other") this.sheet.lay(what, given);
    if (what === "other") this.compared = given;
    if (what === "notes") this.#noted(given);
    if (what === "walk") this.walked = given;
    if (what === "walk" || (what === "other" && state.tab === "notes")) this.panel();
  }

  #noted(notes) {
    this.notes = notes.map((note) => ({
      ...note,
      mends: (note.mends ?? []).map((mend) => ({ ...mend, name: say("design.write", { text: mend.text }), apply: () => this.#mend(mend) })),
    }));
    this.isStale = this.drawer.isStale;
    this.editor.notes(this.notes.filter((note) => !note.file));
    this.#status();
    if (state.tab === "notes") this.panel();
    else this.#tabNames();
  }

  #mend(mend) {
    this.editor.change([mend]);
    this.editor.focus();
  }

  #whomChanged() {
    if (this.file) this.drawer.draw();
  }

  #status() {
    const count = (severity) => this.notes.filter((note) => note.severity === severity).length;
    const said = ["error", "caution", "remark"].filter(count).map((severity) =>
      say(count(severity) === 1 ? `design.one_${severity}` : `design.some_${severity}s`, { count: count(severity) }));
    const failed = this.nest?.failed.length ? [say("design.failed", { sizes: this.nest.failed.join(", ") })] : [];
    const old = this.drawer.isStale && this.nest ? [say("design.stale")] : [];
    const words = [...old, ...failed, ...said].join("; ") || say("design.fine");
    if (by("status").textContent !== words) by("status").textContent = words;
  }

  // ---- the sheet

  #long(edge, body) {
    const sewn = edge.sewn ? ` (${say("design.sewn", { length: length(edge.sewn[body]) })})` : "";
    return `${length(edge.length[body])}${sewn}`;
  }

  #find({ sort, key }) {
    const [name, part] = parted(key);
    const piece = this.nest.pieces.find((one) => one.name === name);
    const among = sort === "edge" ? piece?.edges : sort === "point" ? piece?.points : [...(piece?.darts ?? []), ...(piece?.marks ?? [])];
    return { piece, part, found: among?.find((one) => one.name === part) };
  }

  #hovered(given) {
    const { piece, part, found } = this.#find(given);
    const title = piece ? `${piece.title}: ${plain(part)}` : plain(given.key.replace(".", ": "));
    const words = [make("strong", {}, title)];
    if (given.sort === "edge") {
      const ends = [0, this.nest.sizes.length - 1].map((k) => `${this.nest.sizes[k]} ${length(found.length[k])}`);
      words.push(make("span", {}, `${this.size()} ${this.#long(found, this.body())}`));
      if (this.nest.sizes.length > 1) words.push(make("span", { class: "quiet" }, ends.join(" – ")));
    }
    if (given.sort === "point") {
      const k = this.body();
      words.push(make("span", {}, say("design.place", { across: length(found.x[k]), up: length(-found.y[k]) })));
      if (found.moves) words.push(make("span", { class: "quiet" }, say("design.drag")));
    }
    if (found?.width) words.push(make("span", {}, length(found.width[this.body()])));
    const at = found?.at;
    if (at) words.push(make("span", { class: "quiet" }, at.file ? `${at.file}, ${say("design.line", at)}` : say("design.line", at)));
    if (at && !at.file && !this.drawer.isStale) this.editor.light([[at.start, at.start + part.length]]);
    return words;
  }

  #picked(given) {
    const { found } = this.#find(given);
    if (given.sort === "edge") this.#chooseJoinOf(given.key);
    if (found?.at && !found.at.file) this.jump(found.at);
  }

  jump(at) {
    if (at.file || at.start === undefined) return;
    const text = this.editor.text().slice(at.start, at.end);
    const word = /^[\w.]+/.exec(text)?.[0] ?? "";
    this.editor.jump(at.start, at.start + word.length);
  }

  #chooseJoinOf(key) {
    const found = this.nest.joins.filter((join) => join.sides.flat().includes(key));
    const next = found[(found.findIndex((join) => join.name === state.join) + 1) % found.length];
    if (next) this.chooseJoin(next.name, true);
  }

  chooseJoin(name, keeps = false) {
    const join = this.nest?.joins.find((one) => one.name === name);
    put({ join: name === state.join && !keeps ? "" : name, tab: "seams" });
    this.walked = null;
    this.sheet.light(state.join ? join.sides.flat() : []);
    this.#tabNames();
    this.panel();
    if (state.join) this.drawer.one("walk");
    if (!keeps && join && state.join) this.jump(join.at);
  }

  #lightCursor() {
    if (!this.nest || this.drawer.isStale || state.join) return;
    const at = this.editor.cursor();
    const lit = this.nest.pieces.flatMap((piece) => piece.edges
      .filter((edge) => !edge.at.file && edge.at.start <= at && at < edge.at.end)
      .map((edge) => `${piece.name}.${edge.name}`));
    if (lit.join() !== [...this.sheet.lit].join()) this.sheet.light(lit);
  }

  async #drag(piece, point, x, y) {
    this.wish = { piece, point, x, y };
    if (this.isDragging) return;
    this.isDragging = true;
    while (this.wish) {
      const wish = this.wish;
      this.wish = null;
      const text = this.editor.text();
      const found = await this.quiet("dragged", { ...wish, size: this.size() });
      if (found?.changes.length && this.editor.text() === text) this.editor.change(found.changes, "input.drag");
      await this.drawer.rest();
    }
    this.isDragging = false;
  }

  // ---- controls

  #sizes() {
    by("size").replaceChildren(...this.nest.sizes.map((size) => make("option", { value: size }, size)));
    by("size").value = this.size();
    by("size").disabled = this.nest.sizes.length < 2;
  }

  #controls() {
    const names = [...(this.opened.file ? [["file", this.opened.file]] : []), ...this.opened.shelf.map((name) => [name, plain(name)]), ["new", say("design.new")]];
    by("garment").replaceChildren(...names.map(([value, text]) => make("option", { value }, text)));
    by("garment").value = state.garment;
    by("garment").addEventListener("change", () => this.open(by("garment").value));
    by("size").addEventListener("change", () => this.#look({ size: by("size").value }));
    by("all").checked = state.all;
    by("all").addEventListener("change", () => this.#look({ all: by("all").checked }));
    by("closer").addEventListener("click", () => this.sheet.glass.zoom(1 / 1.4));
    by("farther").addEventListener("click", () => this.sheet.glass.zoom(1.4));
    by("fit").addEventListener("click", () => this.sheet.fit());
    by("download").addEventListener("click", () => this.file.take());
    by("units").value = state.units;
    by("units").addEventListener("change", () => {
      localStorage.setItem("units", by("units").value);
      inUnit(by("units").value);
      this.#look({ units: by("units").value });
    });
    by("language").value = language();
    by("language").addEventListener("change", () => {
      localStorage.setItem("language", by("language").value);
      location.reload();
    });
    document.querySelector('[data-leaf="/design"]')?.setAttribute("aria-current", "page");
    this.#layers();
  }

  #look(changes) {
    put(changes);
    if (this.nest) this.drawn(this.nest);
    this.drawer.settle();
    this.panel();
  }

  #layers() {
    const isOn = (name) => (USUALLY_ON.has(name) ? !listed("off").includes(name) : listed("over").includes(name));
    by("layers").append(...LAYERS.map((name) => {
      this.sheet.layer(name, isOn(name));
      const box = make("input", { type: "checkbox", "data-layer": name, checked: isOn(name), onchange: () => this.#layer(name, box.checked) });
      return make("label", { class: "tick" }, box, " ", say(`design.layer_${name}`));
    }), this.#beneath());
    document.addEventListener("click", (event) => {
      const menu = document.querySelector(".layers[open]");
      if (menu && !menu.contains(event.target)) menu.open = false;
    });
  }

  // Another version, of a file of her own, under the drawing in the place of the saved text.
  #beneath() {
    const file = make("input", { type: "file", accept: ".piece,text/plain", class: "unseen", tabindex: "-1", "aria-hidden": "true", onchange: async () => {
      const [chosen] = file.files;
      if (!chosen) return;
      this.beneath = { name: chosen.name, text: await chosen.text() };
      file.value = "";
      named();
    } });
    const button = make("button", { type: "button", onclick: () => file.click() }, say("design.other_version"));
    const told = make("p", { class: "hint", id: "beneath", role: "status", hidden: true });
    const back = make("button", { type: "button", hidden: true, onclick: () => {
      this.beneath = null;
      named();
      button.focus();
    } }, say("design.saved_again"));
    const named = () => {
      told.textContent = this.beneath ? say("design.laid_under", { file: this.beneath.name }) : "";
      told.hidden = back.hidden = !this.beneath;
      const box = by("layers").querySelector('[data-layer="before"]');
      if (!box.checked) box.click();
      else this.drawer.settle();
    };
    return make("div", { class: "beneath" }, file, button, told, back);
  }

  // The other version cannot be drafted beside this one.
  notUnder(told) {
    if (!this.beneath) return;
    this.settled("other", null);
    by("beneath").textContent = say("design.not_under", { file: this.beneath.name, why: told.message });
  }

  #layer(name, is) {
    const key = USUALLY_ON.has(name) ? "off" : "over";
    const rest = listed(key).filter((one) => one !== name);
    const kept = (key === "off") !== is ? [...rest, name] : rest;
    put({ [key]: kept.join(" ") });
    this.sheet.layer(name, is);
    this.drawer.settle();
  }

  async open(garment, text = null) {
    if (this.file.isDirty() && !confirm(say("design.leave"))) {
      by("garment").value = state.garment;
      return;
    }
    this.opened = await ask("open", { garment });
    put({ garment, styles: {}, join: "", size: "" });
    by("garment").value = garment;
    this.nest = null;
    this.walked = null;
    this.sheet.nest = null;
    this.editor.set(text ?? this.opened.text);
    this.file.now(this.opened, text !== null);
    this.people.anew();
    this.changed();
    this.panel();
  }

  // ---- panels

  #tabs() {
    by("tabs").replaceChildren(...TABS.map((name) => make("button", {
      type: "button", role: "tab", id: `tab-${name}`, "aria-controls": "panel",
      onclick: () => this.#tab(name), onkeydown: (event) => this.#tabKey(event, name),
    })));
    this.#tab(TABS.includes(state.tab) ? state.tab : "notes");
  }

  #tabKey(event, name) {
    const way = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (!way) return;
    const next = TABS[(TABS.indexOf(name) + way + TABS.length) % TABS.length];
    this.#tab(next);
    by(`tab-${next}`).focus();
  }

  #tab(name) {
    put({ tab: name });
    this.#tabNames();
    this.panel();
  }

  #tabNames() {
    for (const name of TABS) {
      const tab = by(`tab-${name}`);
      const count = name === "notes" && this.notes.length ? ` (${this.notes.length})` : "";
      tab.textContent = say(`design.tab_${name}`) + count;
      tab.setAttribute("aria-selected", String(name === state.tab));
      tab.tabIndex = name === state.tab ? 0 : -1;
    }
    by("panel").setAttribute("aria-labelledby", `tab-${state.tab}`);
  }

  async panel() {
    const name = state.tab;
    if (by("tab-notes")) this.#tabNames();
    const parts = await this.#panelParts(name);
    if (name === state.tab) by("panel").replaceChildren(...parts);
  }

  async #panelParts(name) {
    if (name === "notes") {
      const told = notesList(this.notes, { jump: (note) => note.file || this.editor.jump(note.start, note.end), mend: (one) => one.apply() });
      return [...told, ...changesList(listed("over").includes("before") ? this.compared : null)];
    }
    if (name === "seams") {
      const list = seamsList(this.nest, state.join, (join) => this.chooseJoin(join));
      return this.walked && this.nest ? [strip(this.walked, this.body(), this.size()), ...list] : list;
    }
    if (name === "lengths") return lengthsTable(this.nest, this.body(), (at) => this.jump(at));
    if (name === "styles") {
      const found = await this.quiet("choices_of");
      return stylesForm(found?.styles ?? [], state.styles, (style, value) => this.#style(style, value));
    }
    this.books[name] ??= ask("read", { book: name, about: name }).then(({ leaves }) => book(leaves, (text) => this.open("new", text)));
    return [await this.books[name]];
  }

  #style(name, value) {
    const styles = { ...state.styles, [name]: value };
    if (!value) delete styles[name];
    put({ styles });
    this.drawer.draw();
  }
}

new Leaf().start();
