// The slider under the number that the cursor stands in, and Alt with the arrows: the drawing follows.

import { make } from "../leaf.js";
import { say } from "../words.js";
import { numberAt, reach, written } from "./numbers.js";

export class NumberSlider {
  constructor(editor) {
    this.editor = editor;
    this.range = make("input", { type: "range", step: "any", class: "reach" });
    this.value = make("output", {});
    this.panel = make("div", { class: "number-slider", hidden: true }, this.range, this.value);
    this.range.addEventListener("input", () => this.#slide());
    for (const name of ["pointerdown", "focus"]) this.range.addEventListener(name, () => (this.isHeld = true));
    for (const name of ["pointerup", "blur"]) this.range.addEventListener(name, () => (this.isHeld = false));
    editor.slider(this.panel);
  }

  // The cursor has moved, or the text has changed.
  look() {
    if (this.isHeld && this.at) return;
    const found = this.#number();
    const place = found ? found.from + found.number.start : null;
    if (place === null) {
      this.at = null;
      this.panel.hidden = true;
      this.editor.place(null);
      return;
    }
    if (this.at?.place !== place) {
      const [low, high] = reach(found.number, found.text);
      Object.assign(this.range, { min: low, max: high });
      const name = /^\s*([\w.]+)/.exec(found.text)?.[1] ?? "";
      this.range.setAttribute("aria-label", say("design.slider", { name: name.replaceAll("_", " ") }));
    }
    this.at = { place, end: found.from + found.number.end, number: found.number };
    this.#shown(found.number);
    this.panel.hidden = false;
    this.editor.place(place);
  }

  // One step of the number at the cursor; whether there is one.
  step(way) {
    const found = this.#number();
    if (!found) return false;
    const { number, from } = found;
    this.#write(from + number.start, from + number.end, written(number, number.value + way * number.step));
    return true;
  }

  #number() {
    const line = this.editor.lineAt(this.editor.cursor());
    const number = numberAt(line.text, this.editor.cursor() - line.from);
    return number ? { number, from: line.from, text: line.text } : null;
  }

  #slide() {
    if (!this.at) return;
    const text = written(this.at.number, Number(this.range.value));
    if (text === this.at.number.text) return;
    this.#write(this.at.place, this.at.end, text);
    this.at.end = this.at.place + text.length;
    this.at.number = { ...this.at.number, text };
    this.value.textContent = text;
    this.range.setAttribute("aria-valuetext", text);
  }

  #write(start, end, text) {
    this.editor.change([{ start, end, text }], "input.slide");
  }

  #shown(number) {
    this.range.value = number.value;
    this.value.textContent = number.text;
    this.range.setAttribute("aria-valuetext", number.text);
  }
}
