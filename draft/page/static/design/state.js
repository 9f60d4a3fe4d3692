// What is looked at and how, kept behind the `#` of the address: to be bookmarked, and seen by no server.

const USUAL = { garment: "", size: "", all: true, whom: "", styles: {}, off: "", over: "", tab: "notes", join: "", units: "" };

export const state = { ...USUAL };

export function read() {
  const given = new URLSearchParams(location.hash.slice(1));
  for (const key of Object.keys(USUAL)) {
    const text = given.get(key);
    if (text === null) state[key] = structuredClone(USUAL[key]);
    else if (key === "all") state.all = text !== "0";
    else if (key === "styles") state.styles = Object.fromEntries(new URLSearchParams(text));
    else state[key] = text;
  }
  return state;
}

export function put(changes) {
  Object.assign(state, changes);
  const given = new URLSearchParams();
  for (const [key, value] of Object.entries(state)) {
    if (key === "all") value || given.set(key, "0");
    else if (key === "styles") Object.keys(value).length && given.set(key, new URLSearchParams(value).toString());
    else if (value && value !== USUAL[key]) given.set(key, value);
  }
  const hash = given.toString();
  history.replaceState(null, "", hash ? `#${hash}` : location.pathname);
}

export const listed = (key) => state[key].split(" ").filter(Boolean);
