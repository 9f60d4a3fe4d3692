// The editor: a kept component with the colours, the notes, the completions and the slider of the piece language.

import { autocompletion, closeBrackets, completionKeymap } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap, indentWithTab } from "@codemirror/commands";
import { HighlightStyle, StreamLanguage, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { lintGutter, setDiagnostics } from "@codemirror/lint";
import { EditorState, StateEffect, StateField, Transaction } from "@codemirror/state";
import {
  Decoration, EditorView, drawSelection, highlightActiveLine, highlightActiveLineGutter, hoverTooltip, keymap,
  lineNumbers, showTooltip,
} from "@codemirror/view";
import { Tag, tags } from "@lezer/highlight";

import { tokens } from "./language.js";
import { make } from "../leaf.js";
import { tree } from "./leaves.js";
import { quoted } from "./panels.js";

const declared = Tag.define();
const COLOURS = HighlightStyle.define([
  { tag: tags.keyword, class: "pl-word" },
  { tag: tags.number, class: "pl-number" },
  { tag: tags.string, class: "pl-said" },
  { tag: tags.comment, class: "pl-aside" },
  { tag: declared, class: "pl-declared" },
]);
const SEVERITY = { error: "error", caution: "warning", remark: "info" };

const setSlider = StateEffect.define();
const setLit = StateEffect.define();

const lit = StateField.define({
  create: () => Decoration.none,
  update(marks, change) {
    let now = marks.map(change.changes);
    for (const effect of change.effects) {
      if (!effect.is(setLit)) continue;
      const inside = effect.value.filter(([start, end]) => start < end && end <= change.newDoc.length);
      now = Decoration.set(inside.map(([start, end]) => Decoration.mark({ class: "pl-lit" }).range(start, end)), true);
    }
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

export function richEditor(parent, { label, words, nonce, changed, moved, complete, hover, saves, step, say }) {
  let quiet = false;
  let sliderPanel = null;
  const raise = () => ({ dom: sliderPanel, offset: { x: 0, y: 4 } });
  const slider = StateField.define({
    create: () => null,
    update(place, change) {
      for (const effect of change.effects) if (effect.is(setSlider)) return effect.value;
      return place && change.docChanged ? { ...place, pos: Math.min(place.pos, change.newDoc.length) } : place;
    },
    provide: (field) => showTooltip.from(field),
  });
  const language = StreamLanguage.define({ ...tokens(words), tokenTable: { definition: declared, name: tags.name } });
  const view = new EditorView({
    parent,
    state: EditorState.create({
      doc: "",
      extensions: [
        nonce ? EditorView.cspNonce.of(nonce) : [],
        EditorView.contentAttributes.of({ "aria-label": label, spellcheck: "false", tabindex: "0" }),
        lineNumbers(), highlightActiveLine(), highlightActiveLineGutter(), drawSelection(), history(), closeBrackets(),
        indentUnit.of("    "), language, syntaxHighlighting(COLOURS), lintGutter(), lit, slider,
        EditorState.phrases.of(say.phrases),
        autocompletion({ override: [completing(complete)], icons: false }),
        hoverTooltip(hovering(hover), { hoverTime: 350 }),
        keymap.of([
          { key: "Mod-s", run: () => (saves(), true), preventDefault: true },
          { key: "Alt-ArrowUp", run: () => step(1), preventDefault: true },
          { key: "Alt-ArrowDown", run: () => step(-1), preventDefault: true },
          ...completionKeymap, ...historyKeymap, ...defaultKeymap, { ...indentWithTab, run: null, shift: null },
        ].filter((one) => one.key)),
        EditorView.updateListener.of((update) => {
          if (update.docChanged && !quiet) changed();
          if (update.docChanged || update.selectionSet) moved(update.docChanged);
        }),
      ],
    }),
  });
  return {
    text: () => view.state.doc.toString(),
    cursor: () => view.state.selection.main.head,
    lineAt: (at) => view.state.doc.lineAt(Math.min(at, view.state.doc.length)),
    set(text) {
      quiet = true;
      // What was opened, or saved elsewhere, is no step of hers to be undone.
      view.dispatch({ changes: least(view.state.doc.toString(), text), annotations: Transaction.addToHistory.of(false) });
      quiet = false;
    },
    change(changes, event = "input") {
      const rows = changes.map((one) => ({ from: one.start, to: one.end, insert: one.text }));
      view.dispatch({ changes: rows, userEvent: event });
    },
    jump(start, end = start) {
      const [from, to] = [start, end].map((at) => Math.min(at, view.state.doc.length));
      view.dispatch({
        selection: { anchor: from, head: to },
        effects: EditorView.scrollIntoView(from, { y: "center" }),
      });
      view.focus();
    },
    notes(found) {
      const size = view.state.doc.length;
      const all = found.filter((note) => note.start <= size).map((note) => ({
        from: note.start,
        to: Math.min(Math.max(note.end, note.start + 1), size),
        severity: SEVERITY[note.severity],
        message: [note.message, ...note.hints].join("; "),
        renderMessage: () => make("div", {}, quoted(note.message), note.hints.map((hint) => make("p", { class: "hint" }, quoted(hint)))),
        actions: (note.mends ?? []).map((mend) => ({ name: mend.name, apply: mend.apply })),
      }));
      view.dispatch(setDiagnostics(view.state, all.map((one) => ({ ...one, from: Math.min(one.from, one.to) }))));
    },
    light: (spans) => view.dispatch({ effects: setLit.of([...spans].sort((a, b) => a[0] - b[0])) }),
    slider(panel) {
      sliderPanel = panel;
    },
    place(at) {
      const now = view.state.field(slider);
      if ((now?.pos ?? null) === at) return;
      view.dispatch({ effects: setSlider.of(at === null ? null : { pos: at, above: false, create: raise, arrow: false }) });
    },
    focus: () => view.focus(),
  };
}

// The least stretch that is other in a new text, so that the view and the cursor stay.
export function least(before, after) {
  let start = 0;
  const most = Math.min(before.length, after.length);
  while (start < most && before[start] === after[start]) start += 1;
  let ends = 0;
  while (ends < most - start && before[before.length - 1 - ends] === after[after.length - 1 - ends]) ends += 1;
  return { from: start, to: before.length - ends, insert: after.slice(start, after.length - ends) };
}

const completing = (complete) => async (context) => {
  const word = context.matchBefore(/\w*/);
  const before = context.state.sliceDoc(Math.max(0, context.pos - 1), context.pos);
  if (!context.explicit && word.from === word.to && before !== ".") return null;
  if (context.tokenBefore(["comment", "string"])) return null; // nothing may stand there but what she writes
  const found = await complete(context.pos);
  if (!found || context.aborted) return null;
  const options = found.map((one, k) => ({
    label: one.text, detail: one.what, info: one.words || undefined, boost: Math.max(-99, 99 - k),
  }));
  return { from: word.from, options, validFor: /^\w*$/ };
};

const hovering = (hover) => async (view, pos) => {
  const found = await hover(pos);
  if (!found?.leaves) return null;
  return {
    pos: found.start,
    end: found.end,
    create: () => {
      const dom = document.createElement("div");
      dom.className = "pl-told";
      dom.append(...tree(found.leaves));
      return { dom };
    },
  };
};
