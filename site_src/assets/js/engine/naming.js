/* What people call the nets and parts of a connection. The twin of naming.py; `places` is the Map of an assembly. */

import { CAPACITANCE, EARTHS, RESISTANCE } from "./assemble.js";
import { CONTACT } from "./instants.js";
import { isPort } from "./network.js";
import { partName, short } from "./readings.js";
import { SIDES } from "./switches.js";

const WORD = {
  from: "outlet",
  from2: "second outlet",
  into: "inlet",
  into2: "second inlet",
  extra1: "spare end",
  extra2: "second spare end",
};
const NOUN = {
  resistor: "resistor",
  capacitor: "capacitor",
  inductor: "winding",
  sink: "current draw",
  clamp: "clamp",
};
const KNOWN = [
  "resistor",
  "capacitor",
  "capacitance",
  "conductor",
  "winding",
  "coil",
  "ribbon",
  "source",
  "clamp",
  "phantom",
  "power",
  "capsule",
];
const betweenChassis = () =>
  new Map([
    [EARTHS, "difference between the chassis"],
    [RESISTANCE, "earth wiring"],
    [CAPACITANCE, "leakage from the mains"],
  ]);

/* A node or id at its first mark: [place, the rest]. */
export function splitId(text, mark = "/") {
  const at = text.indexOf(mark);
  return at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at + 1)];
}

/* `Mixer line output`; with its side where two places share a name. */
export function owner(places, place) {
  const name = short(places.get(place));
  const alike = [...places].some(([other, record]) => other !== place && short(record) === name);
  return alike ? `${name} ${SIDES[place] || place}` : name;
}

const innerName = (node) =>
  node
    .replace(/^main\./, "")
    .replaceAll("-", " ")
    .replaceAll(".", " ");
const isEnd = (lead, end) => Object.hasOwn(lead.ends, end);

/* A node in full: `Mixer line output 2 (hot)`, `rail inside Mixer line output`. */
export function contactName(places, node) {
  const [place, inner] = splitId(node),
    record = places.get(place),
    whose = owner(places, place);
  if (inner === "chassis") return `chassis of ${whose}`;
  if (!isPort(record)) {
    const [end, contact] = splitId(inner, ".");
    const known = isEnd(record, end) && contact;
    return known ? `${record.ends[end].label} ${contact}` : `${innerName(inner)} inside ${whose}`;
  }
  const contacts = Object.keys(record.contacts).filter((contact) => record.contacts[contact] === inner);
  if (contacts.length) return `${whose} ${contacts.join(" and ")} (${inner})`;
  return inner.startsWith("open.")
    ? `${whose} ${inner.slice(5)} (nothing known)`
    : `${innerName(inner)} inside ${whose}`;
}

/* A short name for each net, no two alike: what the ports call it, else what it is inside. `nets` is a Map of net -> nodes. */
export function netLabels(places, nets) {
  const found = new Map([...nets].map(([net, nodes]) => [net, labelOf(places, nodes)])),
    all = [...found.values()];
  for (const label of new Set(all.filter((one) => all.indexOf(one) !== all.lastIndexOf(one)))) {
    for (const [net, other] of found) {
      const [first] = nets.get(net);
      if (other === label && first) found.set(net, `${label}, ${WORD[splitId(first)[0]] || "lead"}`);
    }
  }
  const seen = new Map();
  for (const [net, label] of found) {
    seen.set(label, (seen.get(label) || 0) + 1);
    if (seen.get(label) > 1) found.set(net, `${label} ${seen.get(label)}`);
  }
  return found;
}

function labelOf(places, nodes) {
  const roles = rolesOf(places, nodes);
  const own = roles.filter((role) => !["screen", "common", "return"].includes(role));
  if (nodes.some((node) => node.endsWith("/chassis"))) return ["chassis", ...own].join(" = ");
  if (roles.length) return roles.join(" = ");
  if (!nodes.length) return "contact";
  const node = nodes.find((one) => isPort(places.get(splitId(one)[0]))) || nodes[0];
  const [place, name] = splitId(node),
    record = places.get(place);
  if (!isPort(record)) {
    const [end, contact] = splitId(name, ".");
    return isEnd(record, end) && contact ? contactName(places, node) : innerName(name);
  }
  return name.startsWith("open.") ? `no role ${name.slice(5)}` : innerName(name);
}

/* What the contacts of the ports carry, each role once. */
function rolesOf(places, nodes) {
  const carried = ([place, name]) =>
    isPort(places.get(place)) && Object.values(places.get(place).contacts).includes(name);
  return [
    ...new Set(
      nodes
        .map((node) => splitId(node))
        .filter(carried)
        .map(([, name]) => name),
    ),
  ];
}

/* A part in words: `input capacitor of the hot leg`, `phantom 48 V`, `feed hot`. `listening` is what the meter is called. */
export function elementName(places, part, id, listening) {
  if (id === "meter") return listening;
  if (betweenChassis().has(id)) return betweenChassis().get(id);
  if (!part) return "contact";
  if (id.endsWith(CONTACT)) return "closing contact";
  const [place, inner] = splitId(id),
    record = places.get(place),
    port = isPort(record);
  const named = partName(record, inner);
  if (named && !conductors(places).has(id)) return named;
  if (part.supply) return record.supplies.find((supply) => supply.id === part.supply).name;
  const conductor = () => `conductor ${innerName(inner.replace(/^cable\./, "").split(".")[0])}`;
  if (!port && !record.parts.includes(inner))
    return part.kind === "capacitor" ? "cable capacitance" : conductor();
  if (part.coil) return part.coil;
  const driving = port ? record.sources.find((source) => Object.hasOwn(source.drive, inner)) : null;
  if (!driving || part.kind !== "emf") return innerName(inner);
  return record.sources.length === 1 ? "signal source" : `signal source ${driving.channel}`;
}

/* A part's name in a sentence: `feed hot resistor`; a name that says what it is stays. */
export const inWords = (name, kind) =>
  NOUN[kind] && !KNOWN.some((noun) => name.includes(noun)) ? `${name} ${NOUN[kind]}` : name;

/* Ids of the parts that are wire of a lead and nothing else. */
export function conductors(places) {
  const wire = (lead) =>
    lead.network.parts.filter(({ kind, id }) => kind === "resistor" && !lead.parts.includes(id));
  return new Set(
    [...places]
      .filter(([, record]) => !isPort(record))
      .flatMap(([place, lead]) => wire(lead).map(({ id }) => `${place}/${id}`)),
  );
}
