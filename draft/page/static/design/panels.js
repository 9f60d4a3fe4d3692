// What stands beside the drawing: notes with their places, seams, lengths, styles, and the books.

import { make } from "../leaf.js";
import { language, say } from "../words.js";
import { length, plain } from "./format.js";
import { tree } from "./leaves.js";

// Messages about the text, and the books, are in the language of its words: who reads another is told so.
const inEnglish = (key) => (language() === "en" ? [] : [make("p", { class: "quiet", lang: language() }, say(key))]);

// A message with what it quotes of the text set apart.
export const quoted = (message) => message.split("`").map((part, k) => (k % 2 ? make("code", {}, part) : part));

// The list of notes; each leads to its place, and what mends it is a click away.
export function notesList(notes, { jump, mend }) {
  if (!notes.length) return [make("p", { class: "quiet" }, say("design.no_notes"))];
  const rows = notes.map((note) =>
    make("li", { class: `told ${note.severity}` },
      make("button", { type: "button", class: "place", onclick: () => jump(note) },
        make("span", { class: "sort", lang: language() }, say(`design.${note.severity}`)),
        make("span", { class: "fact" }, quoted(note.message)),
        make("span", { class: "line", lang: language() }, note.file ?? say("design.line", { line: note.line }))),
      note.hints.map((hint) => make("p", { class: "hint" }, quoted(hint))),
      (note.mends ?? []).map((one) =>
        make("button", { type: "button", class: "mend", lang: language(), onclick: () => mend(one) }, say("design.write", { text: one.text })))));
  return [...inEnglish("design.notes_in_english"), make("ul", { class: "notes", lang: "en" }, rows)];
}

export function seamsList(nest, chosen, choose) {
  if (!nest?.joins.length) return [make("p", { class: "quiet" }, say("design.no_seams"))];
  return [make("ul", { class: "seams" }, nest.joins.map((join) =>
    make("li", {}, make("button", { type: "button", "aria-pressed": String(join.name === chosen), onclick: () => choose(join.name) },
      make("span", { class: "fact" }, plain(join.name)),
      make("span", { class: "quiet" }, join.sides.map((side) => side.map(plain).join(" + ")).join(" – "))))))];
}

// Every edge with its length in each size.
export function lengthsTable(nest, body, jump) {
  if (!nest) return [];
  const head = make("tr", {}, make("th", { scope: "col" }, say("design.edge")),
    nest.sizes.map((size, k) => make("th", { scope: "col", class: k === body ? "in-hand" : "" }, size)));
  const rows = nest.pieces.flatMap((piece) => piece.edges.map((edge) =>
    make("tr", {}, make("th", { scope: "row" }, make("button", { type: "button", class: "link", onclick: () => jump(edge.at) },
      `${plain(piece.name)}, ${plain(edge.name)}`)),
    edge.length.map((mm, k) => make("td", { class: k === body ? "in-hand" : "" }, length(mm))))));
  return [make("div", { class: "wide", tabindex: "0", role: "region", "aria-label": say("design.lengths") },
    make("table", {}, make("thead", {}, head), make("tbody", {}, rows)))];
}

// A control for each style; what is changed here is tried on, and the text stays.
export function stylesForm(styles, chosen, change) {
  if (!styles.length) return [make("p", { class: "quiet" }, say("design.no_styles"))];
  const fields = styles.map((style) => {
    const id = `style-${style.name}`;
    const value = chosen[style.name] ?? style.own;
    const set = (event) => change(style.name, event.target.value === style.own ? "" : event.target.value);
    const field = style.choice
      ? make("select", { id, onchange: set }, style.ends.map((end) => make("option", { value: end, selected: end === value }, plain(end))))
      : make("input", { id, type: "text", value, autocomplete: "off", onchange: set });
    return make("div", { class: "field" }, make("label", { for: id }, plain(style.name)), field,
      make("span", { class: "quiet" }, [style.words, style.choice ? "" : style.limits].filter(Boolean).join("; ")));
  });
  return [make("p", { class: "quiet" }, say("design.styles_told")), make("div", { class: "styles" }, fields)];
}

export function changesList(found) {
  if (!found) return [];
  if (!found.changed.length && !found.new.length && !found.missing.length) return [make("p", { class: "quiet" }, say("design.same"))];
  const rows = found.changed.slice(0, 40).map((row) =>
    make("li", {}, say("design.moved", { edge: `${plain(row.piece)}, ${plain(row.edge)}`, mm: row.moved, size: row.size, longer: signed(row.longer) })));
  const names = (list) => list.map(plain).join(", ");
  return [make("ul", { class: "changes" }, rows,
    found.new.length ? make("li", {}, say("design.only_here", { names: names(found.new) })) : null,
    found.missing.length ? make("li", {}, say("design.only_there", { names: names(found.missing) })) : null)];
}

const signed = (mm) => `${mm < 0 ? "−" : "+"}${Math.abs(mm)}`;

// A book's leaves, its examples each with a button that opens it.
export function book(leaves, open) {
  const pre = (text, _sort, file) => make("div", { class: "example" }, make("pre", { tabindex: "0" }, text),
    file ? make("button", { type: "button", lang: language(), onclick: () => open(file) }, say("design.open_example")) : null);
  const leaf = make("article", { class: "book", lang: "en" });
  const follow = (name) => leaf.querySelector(`[data-name="${CSS.escape(name)}"]`)?.scrollIntoView({ block: "start" });
  const code = (text, file) => make("button", { type: "button", class: "one-line", title: say("design.open_example"), onclick: () => open(file) }, text);
  leaf.append(...inEnglish("design.book_in_english"), ...tree(leaves, { shift: 2, pre, follow, code }));
  return leaf;
}
