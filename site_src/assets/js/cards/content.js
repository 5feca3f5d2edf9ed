/* What stands on a card: {kind, name, path, drawings, blocks, evidence}. Blocks are elements that must not be torn apart, in the order in
   which they matter in the hand. */

import { connector as connectorOf, lead as leadOf, leads, port as portOf } from "../ui/catalogue.js";
import { el, own } from "../ui/dom.js";
import { amount, capital, count, inOrder, listed } from "../ui/words.js";

const ASSIGNMENTS = 3; // columns a card has room for
const TWINS = 4;
const ROLES = { hot: "hot (+)", cold: "cold (−)", bias: "bias supply", mic: "microphone" };

const role = (node) =>
  node
    ? own(ROLES, node) ||
      (node.startsWith("unknown") ? "not known" : node.split(".").pop().replaceAll("-", " "))
    : "–";

const said = (head, text) =>
  text ? el("p", { class: "rf-card__said" }, el("strong", {}, `${head}: `), text) : null;

const table = (heads, rows) =>
  el(
    "table",
    { class: "rf-card__table" },
    el(
      "thead",
      {},
      el(
        "tr",
        {},
        heads.map((head) => (head ? el("th", { scope: "col" }, head) : el("td", {}))),
      ),
    ),
    el(
      "tbody",
      {},
      rows.map(([first, ...others]) =>
        el(
          "tr",
          {},
          el("th", { scope: "row" }, first),
          others.map((text) => el("td", {}, text)),
        ),
      ),
    ),
  );

const cautions = (texts) =>
  texts.length
    ? el(
        "div",
        { class: "rf-card__caution" },
        el("strong", {}, "Take care"),
        texts.map((text) => el("p", {}, text)),
      )
    : null;

/* `faces` are the names of its drawings. */
export function connector(connector, faces) {
  const used = (one) =>
    Object.values(Ringfence.data.ports).filter(({ assignment }) => assignment === one.id).length;
  const all = Object.values(Ringfence.data.assignments)
    .filter((one) => one.connector === connector.id)
    .sort((a, b) => used(b) - used(a) || inOrder(a.name, b.name));
  const shown = all.slice(0, ASSIGNMENTS),
    more = all.length - shown.length;
  return {
    kind: "Connector",
    name: connector.name,
    path: `connectors/${connector.id}/`,
    drawings: faces,
    evidence: connector.evidence,
    blocks: [
      mirrored(connector)
        ? said(
            "To solder",
            "From behind, the female looks as the male's face above does, and the male as the female's.",
          )
        : null,
      said("How to recognise it", connector.recognise),
      shown.length
        ? table(
            ["Contact", ...shown.map(({ name, evidence }) => `${name} (${evidence.grade})`)],
            connector.contacts.map((contact) => [
              contact,
              ...shown.map(({ carries }) => role(own(carries, contact))),
            ]),
          )
        : null,
      more > 0
        ? el(
            "p",
            { class: "rf-card__said" },
            `It is also wired in ${count(more, "other way", "other ways")}; the shape does not tell which. The page named below lists them.`,
          )
        : null,
    ].filter(Boolean),
  };
}

/* A device: what is on which contact; one of somebody's own with what its manual says. */
export function port(port) {
  const device = port.mine ? Ringfence.own.device(port.id) : null,
    base = device ? portOf(device.base) : port,
    { carries } = Ringfence.data.assignments[port.assignment];
  const used = device ? Ringfence.own.changed(base, device.answers).used : [];
  return {
    kind: device ? "My device" : capital(port.device),
    name: port.name,
    path: `ports/${base.id}/`,
    drawings: [`port-${base.id}`],
    evidence: used.length ? { ...port.evidence, grade: Ringfence.own.GRADE } : port.evidence,
    blocks: [
      device ? said("Class", base.name) : null,
      used.length
        ? table(
            ["Asked", Ringfence.own.GRADE, "catalogue"],
            used.map(({ ask, question, shown }) => [
              question.asks,
              Ringfence.own.pretty(shown),
              ask.value ? `${Ringfence.own.catalogue(ask)}, ${ask.evidence.grade}` : "–",
            ]),
          )
        : null,
      cautions(port.cautions.map(({ says }) => says)),
      table(
        ["Contact", `Carries (${base.evidence.grade})`],
        connectorOf(port.connector).contacts.map((contact) => [contact, role(own(carries, contact))]),
      ),
    ].filter(Boolean),
  };
}

/* Has it two halves whose faces mirror each other left and right? */
const mirrored = ({ shape, halves }) =>
  ["circular", "rectangular"].includes(shape) &&
  Object.hasOwn(halves, "male") &&
  Object.hasOwn(halves, "female");

export function lead(lead) {
  const length = lead.length ? `, ${Number(lead.length.toPrecision(6))} m` : "";
  const twins = alike(lead),
    ends = Object.values(lead.ends);
  const contacts = (nodes, end) =>
    nodes
      .filter((node) => node.startsWith(`${end.id}.`))
      .map((node) => node.slice(end.id.length + 1))
      .join(", ") || "–";
  const named = (join) =>
    `${join.id.replaceAll("-", " ")}${join.screen && join.id !== "screen" ? " (screen)" : ""}`;
  return {
    kind: `${capital(lead.form)}${length}`,
    name: lead.name,
    path: lead.mine ? "bench/" : `leads/${lead.id}/`,
    drawings: lead.mine ? [] : [`lead-${lead.id}`],
    evidence: lead.evidence,
    blocks: [
      cautions(lead.cautions.map(({ says }) => says)),
      table(
        ["", ...ends.map(({ label }) => label)],
        lead.joins.map((join) => [named(join), ...ends.map((end) => contacts(join.nodes, end))]),
      ),
      said("Joined to nothing", listed(open(lead))),
      said(
        "Inside",
        inside(lead)
          .map(
            ({ kind, value, a, b }) =>
              `${kind}${value ? ` ${amount(value.nominal, value.unit)}` : ""} from ${place(lead, a)} to ${place(lead, b)}`,
          )
          .join("; "),
      ),
      said(
        "Others with the same ends",
        twins
          .slice(0, TWINS)
          .map(({ name }) => name)
          .join("; ") + (twins.length > TWINS ? `; and ${twins.length - TWINS} more` : ""),
      ),
      said("Tell it apart", lead.tell_apart),
    ].filter(Boolean),
  };
}

/* A node in words: "contact 2 of XLR male"; a joint inside has no name anybody could find. */
function place(lead, node) {
  const [id, contact] = node.split("."),
    end = own(lead.ends, id);
  return end && contact
    ? `${/^[a-z]+$/i.test(contact) ? contact : `contact ${contact}`} of ${end.label}`
    : "a joint inside";
}

const inside = (lead) => lead.network.parts.filter(({ id }) => lead.parts.includes(id));

function open(lead) {
  const joined = new Set([
    ...lead.joins.flatMap(({ nodes }) => nodes),
    ...inside(lead).flatMap(({ a, b }) => [a, b]),
  ]);
  return Object.values(lead.ends).flatMap((end) =>
    connectorOf(end.connector)
      .contacts.filter((contact) => !joined.has(`${end.id}.${contact}`))
      .map((contact) => `${contact} of ${end.label}`),
  );
}

/* Leads nobody tells from this one by its ends, those it is known to be taken for first. */
function alike(lead) {
  const shape = (one) =>
    Object.values(one.ends)
      .map(({ connector, half }) => `${connector}/${half}`)
      .sort()
      .join(" ");
  const others = leads().filter((other) => other !== lead && shape(other) === shape(lead));
  return [...new Set([...lead.looks_like.map(leadOf), ...others])];
}
