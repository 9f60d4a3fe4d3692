// Has the text drawn: one drawing at a time, the newest wish next; what takes longer comes once the lines rest.

import { Superseded, Told, ask } from "../line.js";
import { later } from "../leaf.js";
import { listed, state } from "./state.js";

const REST = 220; // ms: a hand that slides or types goes on sooner
const LOOK = 300;
const MENDED = 4;

export class Drawer {
  constructor({ text, whom, leaf }) {
    this.text = text;
    this.whom = whom;
    this.leaf = leaf;
    this.isStale = false;
    this.wants = false;
    this.work = null;
    this.settle = later(REST, () => this.#settle());
  }

  asked() {
    return { garment: state.garment, text: this.text(), styles: state.styles, ...this.whom() };
  }

  draw() {
    this.wants = true;
    this.since ??= performance.now();
    this.work ??= this.#draw().finally(() => (this.work = null));
  }

  // Once nothing is being drawn.
  async rest() {
    while (this.work) await this.work;
  }

  async #draw() {
    while (this.wants) {
      this.wants = false;
      const since = this.since;
      this.since = null;
      try {
        const nest = await ask("nest", { ...this.asked(), moving: true });
        this.isStale = false;
        this.isMoving = Boolean(nest.moving);
        this.leaf.drawn(nest);
        requestAnimationFrame(() => performance.measure("drawing", { start: since }));
      } catch (reason) {
        if (reason instanceof Superseded) {
          this.wants = true;
          this.since ??= since;
          await new Promise((go) => setTimeout(go, 30));
          continue;
        }
        if (!(reason instanceof Told)) throw reason;
        this.isStale = true;
        this.leaf.stale();
      }
    }
    this.settle();
  }

  async #settle() {
    const round = (this.round = {});
    const over = listed("over");
    if (this.isMoving) {
      const nest = await this.leaf.quiet("nest", { about: "rest" });
      if (this.#isOver(round)) return;
      this.isMoving = false;
      if (nest) this.leaf.drawn(nest);
      else {
        this.isStale = true;
        this.leaf.stale();
      }
    }
    const asks = this.isStale ? [] : ["cutting"];
    if (!this.isStale && over.includes("combs")) asks.push("combs");
    if (!this.isStale && over.includes("construction")) asks.push("construction");
    if (!this.isStale && state.join) asks.push("walk");
    if (!this.isStale && over.includes("before")) asks.push("compare");
    for (const verb of asks) {
      await this.one(verb);
      if (this.#isOver(round)) return;
    }
    for (const [layer, name] of [["combs", "combs"], ["construction", "construction"], ["before", "other"]]) {
      if (!over.includes(layer)) this.leaf.settled(name, null);
    }
    await this.#look(round);
  }

  // One of what is laid over the drawing.
  async one(verb) {
    const given = { size: this.leaf.size() };
    if (verb === "walk") given.join = state.join;
    if (verb === "compare") given.other = this.leaf.beneath?.text ?? this.leaf.opened.text;
    const found = await this.leaf.quiet(verb, given, verb === "compare" ? (told) => this.leaf.notUnder(told) : undefined);
    if (found) this.leaf.settled(verb === "compare" ? "other" : verb, found);
  }

  // Whether something has changed meanwhile.
  #isOver(round) {
    return this.round !== round || this.wants || this.work !== null;
  }

  async #look(round) {
    await new Promise((go) => setTimeout(go, LOOK));
    if (this.#isOver(round)) return;
    const found = await this.leaf.quiet("checks");
    if (!found || this.#isOver(round)) return;
    this.leaf.settled("notes", found.notes);
    const faults = found.notes.filter((note) => note.severity === "error" && !note.file).slice(0, MENDED);
    const text = this.text();
    for (const note of faults) {
      const mended = await this.leaf.quiet("mend", { start: note.start, end: note.end });
      if (this.round !== round || this.text() !== text) return;
      note.mends = mended?.mends.filter((one) => one.message === note.message) ?? [];
      if (note.mends.length) this.leaf.settled("notes", found.notes);
    }
  }
}
