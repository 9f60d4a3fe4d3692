// The words of the page in the reader's language, from the same catalogue as those on paper.

let words = {};
let spoken = "";

export const languages = () => document.documentElement.dataset.languages.split(" ");

export async function speak(language) {
  const asked = languages().includes(language) ? language : "en";
  const answer = await fetch(`/words/${asked}.json`);
  if (answer.ok) {
    words = await answer.json();
    spoken = asked;
  }
  document.documentElement.lang = spoken;
  for (const leaf of document.querySelectorAll("[data-say]")) leaf.textContent = say(leaf.dataset.say);
  for (const leaf of document.querySelectorAll("[data-label]")) leaf.setAttribute("aria-label", say(leaf.dataset.label));
}

export const language = () => spoken;

// The text of a key with its fields filled in; the key itself where there is none, so that nothing is silent.
export function say(key, fields = {}) {
  const text = words[key] ?? key;
  return text.replace(/\{(\w+)\}/g, (whole, name) => (name in fields ? String(fields[name]) : whole));
}
