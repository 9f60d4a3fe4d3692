// The one line to the page's server: asks, answers and news, taken up again whenever it breaks.

import { say } from "./words.js";

const FIRST_WAIT = 250;
const LONGEST_WAIT = 4000;

export class Told extends Error {
  constructor(notes) {
    super(notes.map((note) => note.message).join("; "));
    this.notes = notes.map(spoken);
  }
}

// What the server itself has to say comes as a key: it does not know which language is read.
const spoken = (note) => (note.say ? { ...note, message: say(note.say, note.fields), hints: [], about: note.say } : note);

export class Superseded extends Error {}

const waiting = new Map();
const numbers = new WeakMap();
const listeners = new Map();
let socket = null;
let number = 0;
let wait = FIRST_WAIT;

function lost(is) {
  const told = document.querySelector(".lost");
  if (told) told.hidden = !is;
}

function connect() {
  const scheme = location.protocol === "https:" ? "wss:" : "ws:";
  socket = new WebSocket(`${scheme}//${location.host}/live`);
  socket.addEventListener("open", () => {
    wait = FIRST_WAIT;
    lost(false);
    for (const job of waiting.values()) socket.send(job.text);
    hear({ kind: "open" });
  });
  socket.addEventListener("message", (event) => hear(JSON.parse(event.data)));
  socket.addEventListener("close", () => {
    setTimeout(() => lost(socket.readyState !== WebSocket.OPEN), 800);
    setTimeout(connect, wait);
    wait = Math.min(2 * wait, LONGEST_WAIT);
  });
}

function hear(said) {
  if (said.kind) {
    for (const listener of listeners.get(said.kind) ?? []) listener(said);
    return;
  }
  const job = waiting.get(said.n);
  if (!job) return;
  if ("step" in said) {
    job.step?.(said.step);
    return;
  }
  waiting.delete(said.n);
  if (said.overtaken) job.fail(new Superseded());
  else if (said.notes) job.fail(new Told(said.notes));
  else job.done(said.files ? { ...said.gave, files: said.files } : said.gave);
}

// Ask for something; a later ask of the same verb (about the same thing, where `asked.about` says which) overtakes it.
export function ask(verb, asked = {}, step = null) {
  if (!socket) connect();
  const n = ++number;
  const text = JSON.stringify({ n, verb, asked });
  const promise = new Promise((done, fail) => {
    waiting.set(n, { text, done, fail, step });
    if (socket.readyState === WebSocket.OPEN) socket.send(text);
  });
  numbers.set(promise, n);
  return promise;
}

// Take an ask back: what is begun for it is stopped, and it fails as overtaken.
export function drop(promise) {
  const n = numbers.get(promise);
  if (!waiting.has(n)) return;
  if (socket.readyState === WebSocket.OPEN) socket.send(JSON.stringify({ n, drop: true }));
  else { waiting.get(n).fail(new Superseded()); waiting.delete(n); }
}

// Hear what the server says by itself, such as `file`.
export function listen(kind, listener) {
  if (!socket) connect();
  listeners.set(kind, [...(listeners.get(kind) ?? []), listener]);
}
