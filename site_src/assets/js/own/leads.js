"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.own = Ringfence.own || {};

/* Leads of the bench under a name, among the leads of the catalogue. A name and the bench's address are kept; the record is made from it anew on every
   page, by the scripts of the bench. */
(function (own, ui) {
  const anId = () => `my.${Array.from(crypto.getRandomValues(new Uint8Array(6)), (byte) => (byte % 36).toString(36)).join("")}`;

  own.isLead = (id) => id.startsWith("my.") && own.kept().leads.some((one) => one.id === id);
  own.leadOf = (id) => own.kept().leads.find((one) => one.id === id) || null;

  /* Are the scripts here that make the records? */
  own.ready = () => !own.kept().leads.length || Boolean(Ringfence.bench);

  /* Puts all leads among those of the catalogue; those that are gone leave, and one that is no whole lead any more is left out. */
  own.registerLeads = function () {
    for (const id of Object.keys(Ringfence.data.leads)) if (id.startsWith("my.")) delete Ringfence.data.leads[id];
    if (!Ringfence.bench) return;
    for (const { id, name, wiring } of own.kept().leads) {
      const read = Ringfence.bench.read(wiring);
      if (read.unknown.length || Ringfence.bench.missing(read.wiring).length) continue;
      Ringfence.data.leads[id] = { ...Ringfence.bench.lead(read.wiring), id, name, mine: true,
        cautions: [{ says: "The wiring is as you entered it on the bench: measure the lead before you rely on it.", when: [] }] };
    }
  };

  /* {id, fault}: a new one, kept, and in the kit. */
  own.addLead = function ({ name, wiring }) {
    const lead = { id: anId(), name, wiring }, fault = own.keep({ leads: [...own.kept().leads, lead] });
    own.registerLeads();
    const bag = ui.bag(), inside = ui.lead(lead.id) ? ui.keepBag({ ...bag, leads: [...bag.leads, lead.id] }) : false;
    return { id: lead.id, fault: fault || (inside ? "" : own.FORBIDDEN) };
  };

  /* Gone from the store, the leads and the kit. */
  own.removeLead = function (id) {
    const bag = ui.bag(), fault = own.keep({ leads: own.kept().leads.filter((one) => one.id !== id) });
    ui.keepBag({ ...bag, leads: bag.leads.filter((one) => one !== id) });
    own.registerLeads();
    return fault;
  };
})(Ringfence.own, Ringfence.ui);
