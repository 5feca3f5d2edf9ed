/* Leads of the bench under a name, among the leads of the catalogue. A name and the bench's address are kept; the record is made from it anew on every
   page, by the scripts of the bench. */

import { keepBag, bag as theBag } from "../ui/bag.js";
import { lead as leadById } from "../ui/catalogue.js";
import { FORBIDDEN, keep, kept } from "./keep.js";

const anId = () =>
  `my.${Array.from(crypto.getRandomValues(new Uint8Array(6)), (byte) => (byte % 36).toString(36)).join("")}`;

export const isLead = (id) => id.startsWith("my.") && kept().leads.some((one) => one.id === id);
export const leadOf = (id) => kept().leads.find((one) => one.id === id) || null;

/* Are the scripts here that make the records? */
export const ready = () => !kept().leads.length || Boolean(Ringfence.bench);

/* Puts all leads among those of the catalogue; those that are gone leave, and one that is no whole lead any more is left out. */
export function registerLeads() {
  for (const id of Object.keys(Ringfence.data.leads))
    if (id.startsWith("my.")) delete Ringfence.data.leads[id];
  if (!Ringfence.bench) return;
  for (const { id, name, wiring } of kept().leads) {
    const read = Ringfence.bench.read(wiring);
    if (read.unknown.length || Ringfence.bench.missing(read.wiring).length) continue;
    Ringfence.data.leads[id] = {
      ...Ringfence.bench.lead(read.wiring),
      id,
      name,
      mine: true,
      cautions: [
        {
          says: "The wiring is as you entered it on the bench: measure the lead before you rely on it.",
          when: [],
        },
      ],
    };
  }
}

/* {id, fault}: a new one, kept, and in the kit. */
export function addLead({ name, wiring }) {
  const lead = { id: anId(), name, wiring },
    fault = keep({ leads: [...kept().leads, lead] });
  registerLeads();
  const bag = theBag(),
    inside = leadById(lead.id) ? keepBag({ ...bag, leads: [...bag.leads, lead.id] }) : false;
  return { id: lead.id, fault: fault || (inside ? "" : FORBIDDEN) };
}

/* Gone from the store, the leads and the kit. */
export function removeLead(id) {
  const bag = theBag(),
    fault = keep({ leads: kept().leads.filter((one) => one.id !== id) });
  keepBag({ ...bag, leads: bag.leads.filter((one) => one !== id) });
  registerLeads();
  return fault;
}
