/* What can be a stop: drawings, judged connections, guides. Names come from the catalogue that came with the page. */

import { own, slug } from "../ui/dom.js";
import { row as rowOf } from "../ui/table.js";
import { capital } from "../ui/words.js";

const KINDS = ["connectors", "assignments", "ports", "leads"];
const NONE = "-",
  WORD = /^[a-z0-9.+-]{1,60}$/;

/* {picture, name, page} of an id, or null. */
export function drawn(id) {
  const kind = KINDS.find((each) => own((Ringfence.data || {})[each], id));
  return kind
    ? { picture: `${kind.slice(0, -1)}-${id}`, name: Ringfence.data[kind][id].name, page: `${kind}/${id}/` }
    : null;
}

export const drawable = () =>
  KINDS.flatMap((kind) =>
    Object.entries((Ringfence.data || {})[kind] || {}).map(([id, { name }]) => [id, name]),
  );

/* FROM,LEAD,INTO, and perhaps SWITCH:POSITION after them, as {question, set, given, verdict, offer, findings, works}; null where the table has no such row. */
export function connection(of) {
  const [from, lead, into, ...more] = of.split(","),
    { ports = {}, leads = {} } = Ringfence.data || {},
    set = more.map((one) => one.split(":"));
  if (
    !set.every((one) => one.length === 2 && one.every((word) => WORD.test(word))) ||
    !own(ports, from) ||
    !own(ports, into) ||
    !(lead === NONE || own(leads, lead))
  )
    return null;
  const through = lead === NONE ? [] : [lead],
    row = rowOf(from, through, into);
  if (!row) return null;
  const named = (key) =>
    [...ports[from].supplies, ...ports[into].supplies].find(({ id }) => slug(id) === key)?.name || key;
  return {
    question: { from, through, into },
    set,
    verdict: row.verdict,
    offer: row.offer,
    findings: row.findings,
    given: [
      ["From", ports[from].name],
      ["Through", through.length ? leads[lead].name : "No lead: plugged straight in"],
      ["Into", ports[into].name],
      ...set.map(([key, position]) => [capital(named(key)), position]),
    ],
    works: `check/#from=${from}&through=${through.join()}&into=${into}${set.length ? `&set=${more.join()}` : ""}`,
  };
}

/* [name, title] of every guide this page links to. */
export const guides = () =>
  [...document.querySelectorAll("#rf-class-guides a")].map((link) => [link.dataset.guide, link.textContent]);

/* The address of the check, of any page of this site, as a stop; null for another. */
export function pasted(text) {
  const said = /#([^#]*)$/.exec(text),
    wanted = new URLSearchParams(said ? said[1] : ""),
    path = text.split("#")[0].replace(/index\.html$/, "");
  if (wanted.get("from") && wanted.get("into"))
    return {
      kind: "check",
      of: [
        wanted.get("from"),
        wanted.get("through") || NONE,
        wanted.get("into"),
        ...(wanted.get("set") || "").split(",").filter(Boolean),
      ].join(),
      say: "",
    };
  if (wanted.get("ask")) return { kind: "ask", of: wanted.get("ask"), say: "" };
  const record = /(connectors|assignments|ports|leads)\/([a-z0-9-]+)\/?$/.exec(path),
    guide = /guides\/([a-z]+)\/?$/.exec(path);
  return record
    ? { kind: "draw", of: record[2], say: "" }
    : guide
      ? { kind: "guide", of: guide[1], say: "" }
      : null;
}
