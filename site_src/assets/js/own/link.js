/* Devices in an address: #v=1&device=mixer-line-out-xlr~My+mixer~main.highest-volts-at-output:63_V, one `device` each. What is no device is told and left out. */

import { port } from "../ui/catalogue.js";
import { changed } from "./apply.js";
import { asDevice, name as nameOf } from "./keep.js";

const VERSION = "1",
  MOST = 20,
  LONGEST = 1500; // devices, characters of one
export const LINK_MOST = 1000; // characters of an address that a phone still reads off a screen as a code

export const writeDevices = (devices) =>
  `#v=${VERSION}${devices
    .map(
      ({ base, name, answers }) =>
        `&device=${encodeURIComponent(
          [
            base,
            name.replaceAll("~", "-"),
            ...Object.entries(answers).map(([id, typed]) => `${id}:${typed.replaceAll(" ", "_")}`),
          ].join("~"),
        )}`,
    )
    .join("")}`;

/* {devices: [{name, base, answers}], unknown: texts}; null where an address speaks of none. */
export function readDevices(hash) {
  const asked = new URLSearchParams(hash.replace(/^#/, ""));
  if (!asked.has("device")) return null;
  if (asked.get("v") !== VERSION)
    return { devices: [], unknown: ["a link of another version; ask for a new one"] };
  const devices = [],
    unknown = [];
  for (const text of asked.getAll("device").slice(0, MOST)) {
    const [base, name, ...rest] = text.length > LONGEST ? [""] : text.split("~");
    const answers = Object.fromEntries(
      rest
        .map((one) => one.split(":", 2))
        .filter(([, typed]) => typed)
        .map(([id, typed]) => [id, typed.replaceAll("_", " ")]),
    );
    const made = asDevice({ id: "my.none", name: name || "", base, answers, stamp: "" });
    if (!made) {
      unknown.push(nameOf(text).slice(0, 60) || "nothing");
      continue;
    }
    const { refused } = changed(port(made.base), made.answers);
    for (const { id } of refused) {
      delete made.answers[id];
      unknown.push(`${id} of ${made.name}`.slice(0, 80));
    }
    devices.push({ name: made.name, base: made.base, answers: made.answers });
  }
  return { devices, unknown };
}
