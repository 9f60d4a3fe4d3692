// A plain text area in the editor's place, where its parts are not there: the same to everyone who asks it something.

import { make } from "../leaf.js";

export function plainArea(parent, { label, changed, moved }) {
  const area = make("textarea", { class: "plain-area", spellcheck: "false", "aria-label": label, wrap: "off" });
  area.autocapitalize = "off";
  parent.replaceChildren(area);
  area.addEventListener("input", () => changed());
  for (const event of ["keyup", "click", "input"]) area.addEventListener(event, () => moved());
  const lineAt = (at) => {
    const from = area.value.lastIndexOf("\n", at - 1) + 1;
    const end = area.value.indexOf("\n", at);
    return { from, text: area.value.slice(from, end < 0 ? undefined : end) };
  };
  return {
    text: () => area.value,
    cursor: () => area.selectionStart,
    lineAt,
    set(text) {
      if (text === area.value) return;
      const at = area.selectionStart;
      area.value = text;
      area.setSelectionRange(at, at);
    },
    change(changes) {
      let text = area.value;
      let at = area.selectionStart;
      for (const one of [...changes].reverse()) {
        text = text.slice(0, one.start) + one.text + text.slice(one.end);
        if (one.end <= at) at += one.text.length - (one.end - one.start);
      }
      area.value = text;
      area.setSelectionRange(at, at);
      changed();
      moved();
    },
    jump(start, end = start) {
      area.focus();
      area.setSelectionRange(start, end);
      const line = area.value.slice(0, start).split("\n").length;
      area.scrollTop = Math.max(0, line - 6) * parseFloat(getComputedStyle(area).lineHeight);
      moved();
    },
    notes() {},
    light() {},
    slider: (panel) => parent.append(panel),
    place() {},
    focus: () => area.focus(),
  };
}
