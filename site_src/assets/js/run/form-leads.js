"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.run = Ringfence.run || {};

/* The leads, the spare, what is in the run. */
(function (page, runs, ui) {
  const cm = 0.01;

  page.leads = function (run, tables, change) {
    const rows = run.leads.flatMap((lead, i) => [
      page.choice(
        `lead ${i + 1}`,
        page.named(tables.cables),
        lead.cable,
        (cable) =>
          change((it) => {
            it.leads[i].cable = cable;
          }),
        true,
      ),
      page.number(
        "length",
        "m",
        1,
        runs.LIMITS.length,
        lead.length,
        (value) =>
          change((it) => {
            it.leads[i].length = value;
          }),
        lead.length,
      ),
      page.choice("screen", page.asSaid(runs.SCREENS), lead.screen, (screen) =>
        change((it) => {
          it.leads[i].screen = screen;
        }),
      ),
      page.choice("second wire", page.asSaid(runs.COLD), lead.cold, (cold) =>
        change((it) => {
          it.leads[i].cold = cold;
        }),
      ),
      run.leads.length > 1
        ? page.remove("Take this lead out", () =>
            change((it) => {
              it.leads.splice(i, 1);
            }, true),
          )
        : null,
    ]);
    const more = page.remove("Another lead behind it", () =>
      change((it) => {
        it.leads.push({ ...it.leads[it.leads.length - 1] });
      }, true),
    );
    const spare = run.spare || { lies: "", turns: 5, across: 0.3, distance: 0 };
    const lies = page.choice("spare lead", [["", "none"], ...page.asSaid(runs.SPARE)], spare.lies, (value) =>
      change((it) => {
        it.spare = value ? { ...spare, lies: value } : null;
      }, true),
    );
    const coil = run.spare
      ? [
          page.number(
            "turns",
            "",
            1,
            runs.LIMITS.turns,
            spare.turns,
            (turns) =>
              change((it) => {
                it.spare.turns = turns;
              }),
            spare.turns,
          ),
          page.number(
            "across",
            "cm",
            cm,
            runs.LIMITS.across,
            spare.across,
            (across) =>
              change((it) => {
                it.spare.across = across;
              }),
            spare.across,
          ),
          page.number("from cables and things", "cm", cm, [0, 100], spare.distance, (value) =>
            change((it) => {
              it.spare.distance = value;
            }),
          ),
        ]
      : [];
    return page.group(
      "Leads",
      `${runs.metres(runs.lengthOf(run))}`,
      false,
      ...rows,
      more,
      lies,
      ...coil,
      page.tick("isolating transformer in the run", run.transformer, (is) =>
        change((it) => {
          it.transformer = is;
        }),
      ),
      page.number("wire from case to case", "mΩ", 1e-3, runs.LIMITS.bond, run.bond, (value) =>
        change((it) => {
          it.bond = value;
        }),
      ),
    );
  };
})(Ringfence.run, Ringfence.interference, Ringfence.ui);
