// Making parts of a page: always by name and text, never by markup that came from a text.

export function make(name, given = {}, ...inside) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(given)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (key === "class") made.className = value;
    else if (key in made && key !== "list" && typeof value !== "string") made[key] = value;
    else made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...inside.flat().filter((one) => one !== null && one !== undefined && one !== false));
  return made;
}

const shown = new WeakMap();

// Show a drawing in an image; the last one is let go of.
export function show(image, svg, alt) {
  const old = shown.get(image);
  if (old?.svg === svg) return;
  if (old) URL.revokeObjectURL(old.url);
  const url = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  shown.set(image, { svg, url });
  image.src = url;
  image.alt = alt;
}

export const picture = (svg, alt, given = {}) => {
  const image = make("img", given);
  show(image, svg, alt);
  return image;
};

export function later(milliseconds, what) {
  let timer = 0;
  return (...given) => {
    clearTimeout(timer);
    timer = setTimeout(() => what(...given), milliseconds);
  };
}
