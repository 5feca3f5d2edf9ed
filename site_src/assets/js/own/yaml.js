/* A device of one's own as a file of the catalogue: `same_as` its class, and what differs. */

import { lead, port } from "../ui/catalogue.js";
import { changed, GRADE, valuesOf } from "./apply.js";

/* The id a name makes, and that no port or lead has yet. */
export function idOf(name) {
  const plain =
    name
      .normalize("NFKD")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^[-0-9]+|-+$/g, "")
      .slice(0, 60)
      .replace(/-+$/, "") || "device";
  let id = plain;
  for (let number = 2; port(id) || lead(id); number++) id = `${plain}-${number}`;
  return id;
}

/* "instance parameter" -> value; a number has the last word. */
export function valuesSet(device) {
  const set = new Map();
  for (const { ask, text } of changed(port(device.base), device.answers).used) {
    for (const instance of ask.instances)
      for (const [name, value] of valuesOf(ask, text)) set.set(`${instance} ${name}`, value);
  }
  return set;
}

/* {path, text}; a name or note is a double-quoted scalar, so no text can mean anything else. */
export function yaml(device) {
  const set = valuesSet(device),
    instances = [...new Set([...set.keys()].map((key) => key.split(" ")[0]))];
  const lines = [
    `name: ${JSON.stringify(device.name)}`,
    `same_as: ${device.base}`,
    ...(instances.length ? ["circuit:"] : []),
  ];
  for (const instance of instances) {
    lines.push(
      `  ${instance}:`,
      ...[...set]
        .filter(([key]) => key.startsWith(`${instance} `))
        .map(([key, value]) => `    ${key.split(" ")[1]}: {value: ${value}, evidence: ${GRADE}}`),
    );
  }
  return { path: `${idOf(device.name)}.yaml`, text: `${lines.join("\n")}\n` };
}
