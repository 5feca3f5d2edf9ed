/* A lesson as an address and as a file: {title, stops: [{kind, of, say}]}. Own text stays text; nothing of an address is ever run. */

import { find } from "./bank.js";
import { connection, drawn, guides } from "./stops.js";

const KINDS = ["say", "draw", "check", "guide", "ask"],
  TEXT = 600,
  TITLE = 100,
  STOPS = 60,
  VERSION = 1,
  OF = 300;
export const LONGEST = { say: TEXT, title: TITLE, stops: STOPS };
const cut = (text, most) => String(text === undefined || text === null ? "" : text).slice(0, most);

const KEY = "ringfence.lesson";

/* The lesson in the making, as its address says it; "" where there is none or this browser keeps nothing. */
export function draft() {
  try {
    return localStorage.getItem(KEY) || "";
  } catch {
    return "";
  }
}

/* Keeps it, or removes it where there is nothing in it; whether that was possible. */
export function keepDraft(text) {
  try {
    if (text) localStorage.setItem(KEY, text);
    else localStorage.removeItem(KEY);
    return true;
  } catch {
    return false;
  }
}

/* The address that adds a stop to the lesson in the making; `root` leads to the site's top. */
export const adding = (root, kind, of) =>
  `${root}class/make/#add=${encodeURIComponent([kind, of, ""].join("|"))}`;

/* #lesson=ID of a ready one, or #title=..&stop=KIND|OF|SAY&stop=.. */
export function write({ title, stops }) {
  const said = new URLSearchParams({ title });
  for (const { kind, of, say } of stops) said.append("stop", [kind, of, say].join("|"));
  return said.toString();
}

/* {title, stops, faults} of the part behind #; the stops that are whole, and a sentence for each that is not. */
export function read(hash) {
  const said = new URLSearchParams(hash.replace(/^#/, ""));
  return whole({ title: said.get("title"), stops: said.getAll("stop").map(stop) });
}

/* KIND|OF|SAY as a stop. */
export function stop(text) {
  const [kind, of = "", ...say] = text.split("|");
  return { kind, of: cut(of, OF), say: cut(say.join("|"), TEXT) };
}

/* The same of anything that has these fields. */
export function whole(value) {
  const faults = [],
    stops = [];
  const given = value && Array.isArray(value.stops) ? value.stops : [];
  if (given.length > STOPS) faults.push(`A lesson has ${STOPS} stops at most; the others are left out.`);
  given.slice(0, STOPS).forEach((one, place) => {
    const stop =
      one && typeof one === "object"
        ? { kind: one.kind, of: cut(one.of, OF), say: cut(one.say, TEXT) }
        : { kind: "" };
    const fault = KINDS.includes(stop.kind) ? gone(stop) : "It is of a kind this version does not know.";
    if (fault) faults.push(`Stop ${place + 1} is left out. ${fault}`);
    else stops.push(stop);
  });
  return { title: cut(value && value.title, TITLE) || "A lesson", stops, faults };
}

/* Why a stop cannot be shown, in a sentence, or nothing. */
export function gone({ kind, of, say }) {
  if (kind === "say") return say.trim() ? "" : "It has no text.";
  if (kind === "ask") return find(of) ? "" : `There is no question at “${of}” any more.`;
  if (kind === "guide")
    return guides().some(([name]) => name === of) ? "" : `There is no guide called “${of}”.`;
  if (kind === "draw")
    return drawn(of) ? "" : `Nothing called “${of}” can be drawn; it may have another name now.`;
  return connection(of) ? "" : `There is no judged connection “${of}”.`;
}

/* The file: {lesson} or {fault}. */
export const asFile = ({ title, stops }) => JSON.stringify({ version: VERSION, title, stops }, null, 1);
export function fromFile(text) {
  if (text.length > 200000) return { fault: "That is too long to be a lesson. Nothing was changed." };
  let value;
  try {
    value = JSON.parse(text);
  } catch {
    return { fault: "This is not a whole lesson file. Nothing was changed." };
  }
  if (!value || value.version !== VERSION)
    return {
      fault: `This file is of version ${cut(value && value.version, 20) || "nobody knows"}, and this page reads version ${VERSION}. Nothing was changed.`,
    };
  return { lesson: whole(value) };
}
