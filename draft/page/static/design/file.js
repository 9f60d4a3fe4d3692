// The file behind the text: saved by a click, followed when it is saved elsewhere, never written over unasked.

import { Told, ask } from "../line.js";
import { make } from "../leaf.js";
import { say } from "../words.js";

export class FileKept {
  constructor(editor, told, button, opened) {
    this.editor = editor;
    this.told = told;
    this.button = button;
    button.addEventListener("click", () => this.save());
    this.now(opened);
  }

  // Another text is opened; `fresh` of one that is nowhere yet.
  now(opened, fresh = false) {
    this.opened = opened;
    this.was = fresh ? "" : opened.text;
    this.button.hidden = !opened.saves;
    this.told.hidden = true;
    this.look();
  }

  isDirty() {
    return this.editor.text() !== this.was;
  }

  look() {
    const dirty = this.isDirty();
    this.button.disabled = !dirty;
    this.button.textContent = say(dirty ? "design.save" : "design.saved");
  }

  async save(over = false) {
    if (!this.opened.saves || !this.isDirty()) return;
    const text = this.editor.text();
    try {
      await ask("save", { text, was: this.was, over });
      this.was = text;
      this.told.hidden = true;
    } catch (reason) {
      if (!(reason instanceof Told)) throw reason;
      this.#tell(reason.message);
    }
    this.look();
  }

  // The file has been saved elsewhere; whether its text is taken over.
  saved(text) {
    if (!this.opened.saves || text === this.was) return false;
    if (text === this.editor.text() || !this.isDirty()) {
      this.editor.set(text);
      this.opened.text = this.was;
      this.was = text;
      this.told.hidden = true;
      this.look();
      return true;
    }
    this.there = text;
    this.#tell(say("design.changed_elsewhere"));
    return false;
  }

  #tell(message) {
    const button = (words, does) => make("button", { type: "button", onclick: () => {
      this.told.hidden = true;
      does();
      this.look();
    } }, words);
    this.told.replaceChildren(
      make("p", {}, message),
      this.there === undefined ? null : button(say("design.take_theirs"), () => {
        this.was = this.there;
        this.editor.change([{ start: 0, end: this.editor.text().length, text: this.there }]);
      }),
      button(say("design.keep_mine"), () => this.save(true)),
    );
    this.told.className = "note bad";
    this.told.hidden = false;
  }

  // A copy of the text among what the browser keeps.
  take() {
    const url = URL.createObjectURL(new Blob([this.editor.text()], { type: "text/plain" }));
    const name = /^[\w-]+\.piece$/.test(this.opened.name) ? this.opened.name : "pattern.piece";
    make("a", { href: url, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(url), 1000);
  }
}
