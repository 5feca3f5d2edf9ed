/* What a person typed, kept in this browser and nowhere else: devices by name, and the last numbers of a class. The store may be forbidden, full, or
   hold what somebody else wrote: it is said, and nothing is written over what cannot be read. */

import { living as livingId, port } from "../ui/catalogue.js";

const DRAFTS = "ringfence.drafts"; // in this window only
const KEY = "ringfence.own",
  VERSION = 1,
  MOST = 200,
  LONGEST = 60,
  WIRING = 4000; // devices or leads; characters of a name, of a wiring
export const FORBIDDEN =
  "This browser keeps nothing: a private window or a setting forbids it. The address still holds your numbers: copy the link.";
export const FULL = "This browser's store is full, so this is not kept. Copy the link, then make room.";
export const BROKEN =
  "What this browser kept of your devices cannot be read. It is left as it was; nothing new is kept until you clear this site's data.";
let state = null;

const empty = () => ({ devices: [], leads: [], seen: {} });
const nameOf = (text) =>
  String(text)
    .normalize("NFC")
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, " ")
    .replace(/\s+/g, " ")
    .trim()
    .slice(0, LONGEST);

/* {devices, leads, seen, fault}. */
export function kept() {
  if (state) return state;
  let text = null;
  try {
    text = localStorage.getItem(KEY);
  } catch {
    return (state = { ...empty(), fault: FORBIDDEN });
  }
  const read = text === null ? empty() : parsed(text);
  return (state = read ? { ...read, fault: "" } : { ...empty(), fault: BROKEN });
}

/* What the store is now, not what this page knows: another page may have written. */
export const forget = () => {
  state = null;
};

function parsed(text) {
  try {
    const { version, devices, leads = [], seen } = JSON.parse(text);
    if (version !== VERSION || !Array.isArray(devices) || !Array.isArray(leads)) return null;
    return {
      devices: devices.map(asDevice).filter(Boolean).slice(0, MOST),
      leads: leads.map(asLead).filter(Boolean).slice(0, MOST),
      seen: seenOf(seen),
    };
  } catch {
    return null;
  }
}

/* A device of any value, or null: what is no text, too long or of no class is none. */
export function asDevice(value) {
  if (!value || typeof value !== "object") return null;
  const { id, name, base, answers, stamp } = value,
    living = typeof base === "string" ? livingId("ports", base) : null;
  if (typeof id !== "string" || !/^my\.[a-z0-9]{4,12}$/.test(id) || !living) return null;
  return {
    id,
    name: nameOf(name) || port(living).name,
    base: living,
    answers: answersOf(answers),
    stamp: typeof stamp === "string" ? stamp.slice(0, 12) : "",
  };
}

/* A lead of any value, or null; what its wiring means, the bench says. */
function asLead(value) {
  const { id, name, wiring } = value && typeof value === "object" ? value : {};
  if (
    typeof id !== "string" ||
    !/^my\.[a-z0-9]{4,12}$/.test(id) ||
    typeof wiring !== "string" ||
    wiring.length > WIRING
  )
    return null;
  return { id, name: nameOf(name) || "A lead", wiring };
}

const answersOf = (value) =>
  Object.fromEntries(
    Object.entries(value && typeof value === "object" ? value : {})
      .filter(
        ([id, typed]) =>
          /^[a-z0-9.-]{1,120}$/.test(id) && typeof typed === "string" && typed.length && typed.length <= 40,
      )
      .slice(0, 40),
  );

const seenOf = (value) =>
  Object.fromEntries(
    Object.entries(value && typeof value === "object" ? value : {})
      .slice(0, MOST)
      .map(([port, answers]) => [port, answersOf(answers)]),
  );

/* Why it is not kept, or nothing. */
export function keep(changes) {
  const before = kept();
  if (before.fault === BROKEN) return BROKEN;
  state = { ...before, ...changes };
  try {
    localStorage.setItem(
      KEY,
      JSON.stringify({ version: VERSION, devices: state.devices, leads: state.leads, seen: state.seen }),
    );
    state.fault = "";
  } catch (refused) {
    state.fault = refused && refused.name === "QuotaExceededError" ? FULL : FORBIDDEN;
  }
  return state.fault;
}

/* What stands in a field and is not judged yet, for as long as this window is open: a page that is loaded again has it. `text` puts it there. */
export function draft(key, text) {
  try {
    const drafts = new Map(Object.entries(JSON.parse(sessionStorage.getItem(DRAFTS) || "{}")));
    if (text) drafts.set(key, text.slice(0, 40));
    else if (text === "") drafts.delete(key);
    if (text !== undefined) sessionStorage.setItem(DRAFTS, JSON.stringify(Object.fromEntries(drafts)));
    return String(drafts.get(key) || "");
  } catch {
    return "";
  }
}

/* The last numbers of a class, offered when it is asked about again; never used unasked. */
export const remember = (port, answers) => keep({ seen: { ...kept().seen, [port]: answers } });
export const seen = (port) => (Object.hasOwn(kept().seen, port) ? kept().seen[port] : {});

export { nameOf as name };
