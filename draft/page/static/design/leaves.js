// Marked-up text built from plain data: elements by their names, and letters; nothing is read as markup.

import { make } from "../leaf.js";

const KNOWN = new Set(
  "h1 h2 h3 h4 h5 h6 p ul ol li em strong code pre blockquote table thead tbody tr th td hr br a".split(" "),
);

// The elements of leaves; `shift` lowers headings, `pre` makes what stands for an example.
export function tree(leaves, { shift = 0, pre = null, follow = null, code = null } = {}) {
  return leaves.map((leaf) => {
    if (typeof leaf === "string") return document.createTextNode(leaf);
    const [tag, given, inside] = leaf;
    if (!KNOWN.has(tag)) return document.createTextNode("");
    const parts = tree(inside, { shift, pre, follow, code });
    if (tag === "code" && given.file && code) return code(inside[0], given.file);
    if (tag === "pre") return pre ? pre(inside[0], given.sort ?? "", given.file) : make("pre", { tabindex: "0" }, ...parts);
    if (tag === "a") return make("a", { href: "#", onclick: (event) => (event.preventDefault(), follow?.(given.to)) }, ...parts);
    if (/^h\d$/.test(tag)) {
      return make(`h${Math.min(6, Number(tag[1]) + shift)}`, { "data-name": given.id }, ...parts);
    }
    const isEmpty = tag === "th" && parts.every((part) => !part.textContent.trim());
    return make(isEmpty ? "td" : tag, {}, ...parts);
  });
}
