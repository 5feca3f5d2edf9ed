/* Scripts that a page needs only later, with what they need in turn. They stand beside the one this was joined into. */

import { el } from "./dom.js";
import { NEEDS } from "./needs.js";

export const beside =
  typeof document === "object" && document.currentScript ? document.currentScript.src : "";
const asked = new Map();

/* Resolves when the script has run: to true, or to false when it could not be loaded; then the next call tries again. One that came with the
   page has run. */
export async function later(name) {
  for (const other of NEEDS[name] || []) if (!(await later(other))) return false;
  return once(name);
}

function once(name) {
  const src = new URL(`${name}.js`, beside || location.href).href;
  if (!asked.has(name))
    asked.set(
      name,
      [...document.scripts].some((one) => one.src === src) ? Promise.resolve(true) : load(name, src),
    );
  return asked.get(name);
}

const load = (name, src) =>
  new Promise((done) => {
    const script = el("script", {
      src,
      onload: () => done(true),
      onerror: () => {
        asked.delete(name);
        script.remove();
        done(false);
      },
    });
    document.head.append(script);
  });
