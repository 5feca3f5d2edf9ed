/* The log as CSV (RFC 4180) and as JSON, and back. A cell that a spreadsheet would take for a formula gets an apostrophe in front, which
   is taken off again. */

import { asLog, FIELDS } from "./log.js";

const LONGEST = 2_000_000; // characters
const cell = (value) => {
  const text = /^[=+\-@\t\r']/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

export const asJson = (log) => `${JSON.stringify(log, null, 2)}\n`;

export const asCsv = (log) =>
  [
    FIELDS,
    ...log.leads.map((lead) =>
      FIELDS.map((name) => (name === "quarantine" ? (lead[name] ? "yes" : "no") : lead[name])),
    ),
  ]
    .map((row) => `${row.map(cell).join(",")}\r\n`)
    .join("");

/* Rows of cells; a quote that never ends runs to the end of the text. */
function table(text, comma) {
  const rows = [[""]];
  let inside = false;
  for (let i = 0; i < text.length; i += 1) {
    const row = rows.at(-1),
      sign = text[i];
    if (inside) {
      if (sign !== '"') row[row.length - 1] += sign;
      else if (text[i + 1] === '"') {
        row[row.length - 1] += sign;
        i += 1;
      } else inside = false;
    } else if (sign === '"' && row.at(-1) === "") inside = true;
    else if (sign === comma) row.push("");
    else if (sign === "\n") rows.push([""]);
    else if (sign !== "\r") row[row.length - 1] += sign;
  }
  return rows.filter((row) => row.some(Boolean));
}

function fromCsv(text) {
  const comma = text.split("\n", 1)[0].includes(";") ? ";" : ","; // spreadsheets of half of Europe write semicolons
  const [head, ...rows] = table(text, comma);
  const names = head.map((name) => name.trim().toLowerCase());
  if (!names.includes("label"))
    return {
      fault:
        "The first line has no column “label”. The columns are: label, lead, made, tested, result, due, quarantine, note.",
    };
  const plain = (value) => value.replace(/^'(?=[=+\-@\t\r'])/, "");
  const leads = rows.map((row) => {
    const said = Object.fromEntries(names.map((name, i) => [name, plain(row[i] || "")]));
    return {
      ...said,
      result: (said.result || "").trim().toLowerCase(),
      quarantine: /^(yes|true|1)$/i.test((said.quarantine || "").trim()),
    };
  });
  return asLog({ leads });
}

/* {log, faults} or {fault: words}. */
export function parse(text) {
  const said = text.replace(/^\uFEFF/, "").trim();
  if (!said) return { fault: "There is nothing in it." };
  if (said.length > LONGEST) return { fault: "That is too long to be a log." };
  if (!said.startsWith("{")) return fromCsv(said);
  try {
    const value = JSON.parse(said);
    if (value.version !== 1 || !Array.isArray(value.leads))
      return { fault: "This is not a log of version 1." };
    return asLog(value);
  } catch {
    return { fault: "This is not whole JSON." };
  }
}
