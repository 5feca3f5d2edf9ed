/* Reading the catalogue: records by id, an old id's successor, and words a person may search by. */

import { own } from "./dom.js";

const record = (kind, id) => own(Ringfence.data[kind], id);

export const port = (id) => record("ports", id);
export const lead = (id) => record("leads", id);
export const connector = (id) => record("connectors", id);

/* The id itself, the one id it moved to, or null. `kind` is "ports" or "leads". */
export function living(kind, id) {
  if (record(kind, id)) return id;
  const successors = (record("retired", id) || []).filter((other) => record(kind, other));
  return successors.length === 1 ? successors[0] : null;
}

/* What a connector is called before its contacts are counted: "3.5 mm phone", "XLR". People look for that first. */
const familyOf = (place) => connector(place.connector).name.split(",")[0];

/* A half in as few words as tell it from the others: "XLR-3 female", "3.5 mm TRS plug", "DC barrel, 5.5 mm with 2.1 mm bore, plug". */
export const half = (place) => `${brief(place)} ${place.half}`;

function brief(place) {
  const family = familyOf(place),
    { name, contacts } = connector(place.connector),
    letters = /, .*\(([^)]+)\)/.exec(name);
  const alike = Object.entries(Ringfence.data.connectors)
    .filter(([connector]) => familyOf({ connector }) === family)
    .map(([, other]) => other);
  if (letters) return `${family.replace(/ phone$/, "")} ${letters[1]}`;
  if (alike.length === 1) return family.replace(/ plug(?= \(|$)/, "");
  const apart = alike.filter((other) => other.contacts.length === contacts.length).length > 1;
  if (apart) return `${name.replace(/ plug(?=,)/, "")},`;
  return family.includes(" ") ? `${family}, ${contacts.length} contacts,` : `${family}-${contacts.length}`;
}

/* The ends of a lead in words: "6.35 mm TS plug to RCA plug". */
export const ends = (lead) => Object.values(lead.ends).map(half).join(" to ");

/* How seldom one meets a port or a lead at work: 0 daily, 1 often, 2 the rest. */
export const seldom = ({ met }) => ({ daily: 0, often: 1 })[met] ?? 2;

export const outlets = () => Object.values(Ringfence.data.ports).filter((port) => port.sources.length);
export const inlets = () => Object.values(Ringfence.data.ports).filter((port) => port.listeners.length);
export const leads = () => Object.values(Ringfence.data.leads);

/* Everything a person may type to find a port, a lead or a connector, in lower case. Other names are there where the page has asked for them (called.js); the
   search has its own. */
export function findable(entry) {
  const places = entry.ends ? Object.values(entry.ends) : entry.connector ? [entry] : [];
  const connectors = places.map((place) => connector(place.connector));
  const also = (one) => one.also_called || [];
  const words = [entry.name, entry.id, entry.device, entry.form, ...also(entry)];
  const assignment = record("assignments", entry.assignment);
  if (assignment) words.push(assignment.name, ...also(assignment));
  connectors.forEach((connector) => words.push(connector.name, ...also(connector)));
  return words.filter(Boolean).join(" ").toLowerCase();
}

/* Does an entry have every word that is typed? Gaps and hyphens do not count: "48v" and "minijack" are found. Two or three letters begin a
   word: "di" is not found in "audio". */
export const matches = (entry, typed) => {
  const text = findable(entry),
    solid = text.replace(/[\s-]/g, "");
  const found = (word) =>
    /^[a-z]{1,3}$/.test(word)
      ? ` ${text}`.search(new RegExp(`[^a-z]${word}`)) >= 0
      : text.includes(word) || solid.includes(word.replaceAll("-", ""));
  return typed.toLowerCase().split(/\s+/).filter(Boolean).every(found);
};

export { familyOf as family };
