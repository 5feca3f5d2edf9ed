"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.run = Ringfence.run || {};

/* What lies near the run: mains cables, transformers, motors. */
(function (page, runs, ui) {
  const cm = 0.01;

  page.beside = function (run, tables, change) {
    const rows = run.beside.flatMap((one, i) => [
      page.choice(
        `cable ${i + 1}`,
        page.named(tables.mains),
        one.cable,
        (cable) =>
          change((it) => {
            it.beside[i].cable = cable;
          }),
        true,
      ),
      page.choice("what hangs on it", page.named(tables.loads), one.load, (load) =>
        change((it) => {
          it.beside[i].load = load;
        }),
      ),
      page.number("carries", "A", 1, [0.001, tables.mains[one.cable].carries], one.amps, (amps) =>
        change((it) => {
          it.beside[i].amps = amps;
        }),
      ),
      page.number(
        "apart",
        "cm",
        cm,
        runs.LIMITS.distance,
        one.distance,
        (value) =>
          change((it) => {
            it.beside[i].distance = value;
          }),
        0.01,
      ),
      page.number("alongside for", "m", 1, runs.LIMITS.along, one.along, (value) =>
        change((it) => {
          it.beside[i].along = value;
        }),
      ),
      page.choice("lies", page.asSaid(runs.LIES), one.lies, (lies) =>
        change((it) => {
          it.beside[i].lies = lies;
        }),
      ),
      page.remove("Take it away", () =>
        change((it) => {
          it.beside.splice(i, 1);
        }, true),
      ),
    ]);
    const more = page.remove("A mains cable near it", () =>
      change((it) => {
        it.beside.push({
          cable: "flex",
          load: "unknown",
          amps: 0,
          distance: 0.1,
          along: 0,
          lies: "alongside",
        });
      }, true),
    );
    return page.group(
      "Mains cables",
      run.beside.length ? `${run.beside.length} near it` : "none near it",
      false,
      ...rows,
      more,
    );
  };

  page.near = function (run, tables, change) {
    const rows = run.things.flatMap((one, i) => [
      page.choice(
        `thing ${i + 1}`,
        page.named(tables.things),
        one.thing,
        (thing) =>
          change((it) => {
            it.things[i].thing = thing;
          }),
        true,
      ),
      page.number(
        "apart",
        "cm",
        cm,
        runs.LIMITS.distance,
        one.distance,
        (value) =>
          change((it) => {
            it.things[i].distance = value;
          }),
        one.distance,
      ),
      page.remove("Take it away", () =>
        change((it) => {
          it.things.splice(i, 1);
        }, true),
      ),
    ]);
    const more = page.remove("A transformer or motor near it", () =>
      change((it) => {
        it.things.push({ thing: "mains-transformer", distance: 0.3 });
      }, true),
    );
    return page.group(
      "Transformers and motors",
      run.things.length ? `${run.things.length} near it` : "none near it",
      false,
      ...rows,
      more,
    );
  };
})(Ringfence.run, Ringfence.interference, Ringfence.ui);
