/* What stands between the cases of the two devices: from how they are powered, or from a meter. The twin of between.py. */

import { omega } from "./formulas/basics.js";

const WHINE = 1000; // Hz

export function rowOf(run, tables) {
  if (run.sockets === "same battery") return tables.powering["same-battery"];
  const pair = [run.source.powered, run.input.powered].sort().join("-");
  return tables.powering[pair === "earthed-earthed" ? `${pair}-${run.sockets.replaceAll(" ", "-")}` : pair];
}

/* {volts, ohm, farad, hertz, shape} at one end of what is guessed. */
export function chassis(run, tables, guess, end) {
  const row = rowOf(run, tables);
  guess.note(row, row.words);
  if (run.sockets === "same battery") {
    const ohm = row.ohm[end],
      volts = row.amps[end] * ohm * row.varying[end];
    return measured(run, guess, end, { volts, ohm, farad: 0, hertz: WHINE, shape: "sine" });
  }
  const wave = tables.waves[run.dimmers && row.ohm ? "dimmer" : row.wave];
  guess.note(wave, wave.name);
  const shape = wave.shapes[end];
  if (row.ohm)
    return measured(run, guess, end, {
      volts: row.volts[end],
      ohm: row.ohm[end],
      farad: 0,
      hertz: run.hertz,
      shape,
    });
  const battery = run.source.powered === "battery" || run.input.powered === "battery";
  const farad = row.farad[end] + (run.held && battery ? tables.powering.held.farad[end] : 0);
  return measured(run, guess, end, {
    volts: row.share[end] * run.volts,
    ohm: 0,
    farad,
    hertz: run.hertz,
    shape,
  });
}

/* The meter's readings in place of the guess; one reading leaves the impedance as guessed. */
function measured(run, guess, end, guessed) {
  let volts = run.measured_volts,
    { ohm, farad } = guessed;
  const amps = run.measured_amps;
  if (!(volts || amps)) return guessed;
  const off = guess.constant("meter", end);
  if (farad) {
    farad = volts && amps ? amps / (omega(run.hertz) * volts) : farad;
    volts = volts || amps / (omega(run.hertz) * farad);
  } else {
    ohm = volts && amps ? volts / amps : ohm;
    volts = volts || amps * ohm;
  }
  return { ...guessed, volts: volts * off, ohm, farad };
}
