// Parts of a drawing, each kept under a key: drawn again it is the same element with new data, so nothing flickers.

const SVG = "http://www.w3.org/2000/svg";

export function draw(name, given = {}, parent = null) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(given)) made.setAttribute(key, value);
  parent?.append(made);
  return made;
}

export function set(element, name, value) {
  const text = String(value);
  if (element.getAttribute(name) !== text) element.setAttribute(name, text);
}

export function letter(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

export class Keyed {
  constructor() {
    this.parts = new Map();
    this.used = new Set();
  }

  begin() {
    this.used = new Set();
  }

  part(key, name, parent, given = {}) {
    let element = this.parts.get(key);
    if (!element) {
      element = draw(name, {}, parent);
      this.parts.set(key, element);
    }
    for (const [attribute, value] of Object.entries(given)) set(element, attribute, value);
    this.used.add(key);
    return element;
  }

  get(key) {
    return this.parts.get(key);
  }

  // What was not drawn again since `begin` is gone.
  end() {
    for (const [key, element] of this.parts) {
      if (this.used.has(key)) continue;
      element.remove();
      this.parts.delete(key);
    }
  }
}
