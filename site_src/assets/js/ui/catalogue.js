"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* Reading the catalogue: records by id, an old id's successor, and words a person may search by. */
(function (ui) {
  const record = (kind, id) => ui.own(Ringfence.data[kind], id);

  ui.port = (id) => record("ports", id);
  ui.lead = (id) => record("leads", id);
  ui.connector = (id) => record("connectors", id);

  /* The id itself, the one id it moved to, or null. `kind` is "ports" or "leads". */
  ui.living = function (kind, id) {
    if (record(kind, id)) return id;
    const successors = (record("retired", id) || []).filter((other) => record(kind, other));
    return successors.length === 1 ? successors[0] : null;
  };

  /* What a connector is called before its contacts are counted: "3.5 mm phone", "XLR". People look for that first. */
  ui.family = (place) => ui.connector(place.connector).name.split(",")[0];

  /* A half in as few words as tell it from the others: "XLR-3 female", "3.5 mm TRS plug", "DC barrel, 5.5 mm with 2.1 mm bore, plug". */
  ui.half = (place) => `${brief(place)} ${place.half}`;

  function brief(place) {
    const family = ui.family(place), { name, contacts } = ui.connector(place.connector), letters = /, .*\(([^)]+)\)/.exec(name);
    const alike = Object.entries(Ringfence.data.connectors).filter(([connector]) => ui.family({ connector }) === family).map(([, other]) => other);
    if (letters) return `${family.replace(/ phone$/, "")} ${letters[1]}`;
    if (alike.length === 1) return family.replace(/ plug(?= \(|$)/, "");
    const apart = alike.filter((other) => other.contacts.length === contacts.length).length > 1;
    if (apart) return `${name.replace(/ plug(?=,)/, "")},`;
    return family.includes(" ") ? `${family}, ${contacts.length} contacts,` : `${family}-${contacts.length}`;
  }

  /* The ends of a lead in words: "6.35 mm TS plug to RCA plug". */
  ui.ends = (lead) => Object.values(lead.ends).map(ui.half).join(" to ");

  /* How seldom one meets a port or a lead at work: 0 daily, 1 often, 2 the rest. */
  ui.seldom = ({ met }) => ({ daily: 0, often: 1 }[met] ?? 2);

  ui.outlets = () => Object.values(Ringfence.data.ports).filter((port) => port.sources.length);
  ui.inlets = () => Object.values(Ringfence.data.ports).filter((port) => port.listeners.length);
  ui.leads = () => Object.values(Ringfence.data.leads);

  /* Everything a person may type to find a port, a lead or a connector, in lower case. Other names are there where the page has asked for them (called.js); the
     search has its own. */
  ui.findable = function (entry) {
    const places = entry.ends ? Object.values(entry.ends) : entry.connector ? [entry] : [];
    const connectors = places.map((place) => ui.connector(place.connector));
    const also = (one) => one.also_called || [];
    const words = [entry.name, entry.id, entry.device, entry.form, ...also(entry)];
    const assignment = record("assignments", entry.assignment);
    if (assignment) words.push(assignment.name, ...also(assignment));
    connectors.forEach((connector) => words.push(connector.name, ...also(connector)));
    return words.filter(Boolean).join(" ").toLowerCase();
  };

  /* Does an entry have every word that is typed? Gaps and hyphens do not count: "48v" and "minijack" are found. Two or three letters begin a
     word: "di" is not found in "audio". */
  ui.matches = (entry, typed) => {
    const text = ui.findable(entry), solid = text.replace(/[\s-]/g, "");
    const found = (word) => (/^[a-z]{1,3}$/.test(word) ? ` ${text}`.search(new RegExp(`[^a-z]${word}`)) >= 0 : text.includes(word) || solid.includes(word.replaceAll("-", "")));
    return typed.toLowerCase().split(/\s+/).filter(Boolean).every(found);
  };
})(Ringfence.ui);
