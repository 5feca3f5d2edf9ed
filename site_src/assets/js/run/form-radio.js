"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.run = Ringfence.run || {};

/* The form's last groups: transmitters, and a meter's readings. */
(function (page, runs) {
  page.radio = function (run, tables, change) {
    const rows = run.transmitters.flatMap((one, i) => [
      page.choice(
        `transmitter ${i + 1}`,
        page.named(tables.transmitters),
        one.transmitter,
        (value) =>
          change((it) => {
            it.transmitters[i].transmitter = value;
          }),
        true,
      ),
      page.number(
        "away",
        "m",
        1,
        runs.LIMITS.far,
        one.distance,
        (value) =>
          change((it) => {
            it.transmitters[i].distance = value;
          }),
        one.distance,
      ),
      page.number("power", "W", 1, runs.LIMITS.watts, one.watts, (value) =>
        change((it) => {
          it.transmitters[i].watts = value;
        }),
      ),
      page.remove("Take it away", () =>
        change((it) => {
          it.transmitters.splice(i, 1);
        }, true),
      ),
    ]);
    const more = page.remove("A transmitter near it", () =>
      change((it) => {
        it.transmitters.push({ transmitter: "phone", distance: 1, watts: 0 });
      }, true),
    );
    const said = run.transmitters.length ? `${run.transmitters.length} near it` : "none near it";
    return page.group(
      "Radio",
      said,
      false,
      ...rows,
      more,
      page.number("choke at the input", "Ω", 1, runs.LIMITS.ferrite, run.ferrite, (value) =>
        change((it) => {
          it.ferrite = value;
        }),
      ),
    );
  };

  page.measured = function (run, change) {
    const said = run.measured_volts || run.measured_amps ? "measured" : "not measured";
    return page.group(
      "A meter between the two cases",
      said,
      false,
      page.number("AC volts", "mV", 1e-3, runs.LIMITS.volts, run.measured_volts, (value) =>
        change((it) => {
          it.measured_volts = value;
        }),
      ),
      page.number("AC amps", "mA", 1e-3, runs.LIMITS.read, run.measured_amps, (value) =>
        change((it) => {
          it.measured_amps = value;
        }),
      ),
    );
  };
})(Ringfence.run, Ringfence.interference);
