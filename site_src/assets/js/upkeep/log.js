/* The log: {version, every, leads}, and `own`, a line for every tag, where there is one. A lead is {label, lead, made, tested, result, due, quarantine, note}: `lead` an id of the catalogue or
   empty, days as 2026-11-28 or empty, `result` passed, failed or empty. Labels differ, whatever their case. */

const VERSION = 1,
  EVERY = 6,
  LONGEST = { label: 40, lead: 120, note: 400 };
const RESULTS = ["", "passed", "failed"];
export const FIELDS = ["label", "lead", "made", "tested", "result", "due", "quarantine", "note"];
export const MOST = 2000; // leads; nobody has more, and a browser's store is small

export const empty = () => ({ version: VERSION, every: EVERY, leads: [] });
export const same = (one, other) => one.trim().toLowerCase() === other.trim().toLowerCase();
export const find = (log, label) => log.leads.find((lead) => same(lead.label, label)) || null;

/* A day as people write it in a form, or empty; null for what is no day. */
export function day(text) {
  const said = String(text || "").trim();
  if (!said) return "";
  const found = /^(\d{4})-(\d{2})-(\d{2})$/.exec(said);
  const date = found && new Date(Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3])));
  return date && date.toISOString().slice(0, 10) === said ? said : null;
}

export function today(now = new Date()) {
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((part) => String(part).padStart(2, "0"))
    .join("-");
}

/* A day so many months on; the last of a shorter month. */
export function later(day, months) {
  const [year, month, date] = day.split("-").map(Number);
  const last = new Date(Date.UTC(year, month - 1 + months + 1, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(date, last))).toISOString().slice(0, 10);
}

/* {lead} of anything that has these fields, or {fault: words}. */
export function asLead(value) {
  const text = (name) => (typeof value[name] === "string" ? value[name].trim().slice(0, LONGEST[name]) : "");
  if (!value || typeof value !== "object") return { fault: "This is no lead." };
  const label = text("label");
  if (!label) return { fault: "A lead needs a label: what is written on it." };
  const days = {};
  for (const name of ["made", "tested", "due"]) {
    days[name] = day(value[name]);
    if (days[name] === null)
      return {
        fault: `${label}: “${String(value[name]).slice(0, 40)}” is no day. Write it like 2026-11-28.`,
      };
  }
  if (!RESULTS.includes(value.result || ""))
    return {
      fault: `${label}: “${String(value.result).slice(0, 40)}” is no result. Write passed or failed.`,
    };
  return {
    lead: {
      label,
      lead: text("lead"),
      ...days,
      result: value.result || "",
      quarantine: value.quarantine === true,
      note: text("note"),
    },
  };
}

/* {log, faults}: what is in order, each label once, and what is not. */
export function asLog(value) {
  const log = empty(),
    faults = [];
  if (value && Number.isInteger(value.every) && value.every >= 1 && value.every <= 60)
    log.every = value.every;
  if (value && typeof value.own === "string" && value.own.trim()) log.own = value.own.trim().slice(0, 60);
  for (const one of value && Array.isArray(value.leads) ? value.leads.slice(0, MOST) : []) {
    const { lead, fault } = asLead(one);
    if (fault) faults.push(fault);
    else if (find(log, lead.label)) faults.push(`${lead.label} is there twice; the first is kept.`);
    else log.leads.push(lead);
  }
  return { log, faults };
}

/* The log with a lead in the place of the one with that label, or added. */
export function put(log, lead, label = lead.label) {
  const there = find(log, label);
  return {
    ...log,
    leads: there ? log.leads.map((one) => (one === there ? lead : one)) : [...log.leads, lead],
  };
}

export const out = (log, label) => ({ ...log, leads: log.leads.filter((lead) => !same(lead.label, label)) });

/* A lead tested today. What failed is out of use until it passes. */
export const tested = (lead, passed, today, every) => ({
  ...lead,
  tested: today,
  result: passed ? "passed" : "failed",
  due: passed ? later(today, every) : "",
  quarantine: !passed,
});

/* out of use, never tested, due, or fine. */
export function state(lead, today) {
  if (lead.quarantine) return "out of use";
  if (!lead.tested) return "never tested";
  return lead.due && lead.due <= today ? "due" : "fine";
}

/* Two logs as one: of a lead in both the one tested later, mine if neither is. */
export function joined(mine, theirs) {
  const log = theirs.leads.reduce((found, lead) => {
    const there = find(found, lead.label);
    return !there || lead.tested > there.tested ? put(found, lead) : found;
  }, mine);
  return { ...log, leads: log.leads.slice(0, MOST) };
}
