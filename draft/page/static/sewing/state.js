// What the reader has chosen, all of it in the address behind `#`, so that it can be kept and sent and no server sees it.

const EMPTY = () => ({
  garment: "", who: "me", name: "", chart: "", sizes: [], measures: {}, figure: [], styles: {},
  cloth: {}, widths: "", have: "", one_way: false, unwashed: false,
  made: "", of: "", page: "a4", large: [], wanted: ["booklet"], units: "cm", language: "en",
});

let now = EMPTY();
const hearers = new Set();

const LISTS = ["sizes", "figure", "large", "wanted"];
const MAPS = { measures: "m.", styles: "s.", cloth: "c." };
const FLAGS = ["one_way", "unwashed"];

export const state = () => now;
export const onChange = (hearer) => hearers.add(hearer);

export function written(of = now) {
  const words = new URLSearchParams();
  const empty = EMPTY();
  for (const [key, value] of Object.entries(of)) {
    if (key in MAPS) for (const [name, one] of Object.entries(value)) one && words.set(MAPS[key] + name, one);
    else if (LISTS.includes(key)) { if (String(value) !== String(empty[key])) words.set(key, value.join(",")); }
    else if (FLAGS.includes(key)) { if (value) words.set(key, "1"); }
    else if (value !== empty[key] || (key === "units" || key === "language")) words.set(key, value);
  }
  return words.toString();
}

export function read(hash, usual = {}) {
  const found = { ...EMPTY(), ...usual };
  for (const [key, value] of new URLSearchParams(hash.replace(/^#/, ""))) {
    const map = Object.keys(MAPS).find((name) => key.startsWith(MAPS[name]));
    if (map) found[map] = { ...found[map], [key.slice(MAPS[map].length)]: value.slice(0, 60) };
    else if (LISTS.includes(key)) found[key] = value ? value.split(",") : [];
    else if (FLAGS.includes(key)) found[key] = value === "1";
    else if (key in found) found[key] = value.slice(0, 120);
  }
  return found;
}

let place = 0;
let last = 0;

// Change something. What is `settled` can be undone; what is still being dragged replaces the step that it is.
export function change(more, settled = true) {
  now = { ...now, ...more };
  const address = `#${written()}`;
  if (settled && address !== (pushed ?? "")) {
    place += 1;
    last = place;
    history.pushState({ place }, "", address);
    pushed = address;
  } else history.replaceState({ place }, "", address);
  tell();
}
let pushed = null;

export function begin(usual) {
  now = read(location.hash, usual);
  place = history.state?.place ?? 0;
  last = place;
  pushed = `#${written()}`;
  history.replaceState({ place }, "", pushed);
  addEventListener("popstate", () => {
    now = read(location.hash, usual);
    place = history.state?.place ?? 0;
    pushed = `#${written()}`;
    tell(true);
  });
  tell(true);
}

export const canUndo = () => place > 0;
export const canRedo = () => place < last;

function tell(anew = false) {
  for (const hearer of hearers) hearer(now, anew);
}

// The size that is shown while nobody has said for whom.
let middle = [];
export const showFirst = (sizes) => { middle = sizes.length ? [sizes[Math.floor(sizes.length / 2)]] : []; };

// What the server is asked with. A length without a unit is in the reader's.
export function asked(of = now) {
  const unit = of.units === "in" ? " in" : " cm";
  const measures = {};
  if (of.who === "me")
    for (const [name, text] of Object.entries(of.measures)) measures[name] = withUnit(text, name === "shoulder_slope" ? " deg" : unit);
  const is = Object.keys(measures).length > 0;
  return {
    garment: of.garment, measures, name: is ? of.name : "", chart: is ? "" : of.chart, figure: is ? of.figure.join(", ") : "",
    sizes: is ? [] : of.sizes.length ? of.sizes : middle, styles: of.styles, cloth: of.cloth, unwashed: of.unwashed,
    widths: of.widths ? [withUnit(of.widths, unit)] : [], have: of.have ? [of.have] : [], one_way: of.one_way,
    units: of.units, language: of.language,
  };
}

export const withUnit = (text, unit) => (/^[\d\s.,/½¼¾-]+$/.test(text) ? text.replace(",", ".") + unit : text);
