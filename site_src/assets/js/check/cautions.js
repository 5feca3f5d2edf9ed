/* What to take care of with a question: only that whose condition is there. */

import { lead, port } from "../ui/catalogue.js";
import { asked as askedOf } from "./asked.js";

const FEW = 10; // volts: a supply of less, at an ear for microphones, is plug-in power, whether it has a switch or not
const FULL = 15; // volts: what is marked 12 V is not always rated for this and more
const MANY = 40; // volts: what a lead brings of this and more is phantom
const LINE = ["line", "headphone"],
  DATA = ["digital", "data", "contact", "midi", "video", "clock", "timecode"];

const drives = ({ sources }, ...kinds) => sources.some(({ kind }) => kinds.includes(kind));
const hears = ({ listeners }, wanted) => listeners.some(({ kind }) => kind === wanted);
const volts = ({ network: { parts } }) =>
  parts.filter(({ kind, value }) => kind === "emf" && value).map(({ value }) => value);
const few = (port) =>
  hears(port, "microphone") && volts(port).some(({ nominal }) => nominal > 0 && nominal < FEW);
const supplies = (port, kind) => port.supplies.some(({ id }) => id.endsWith(kind));
const fed = ({ ports, off }, kind, unswitched = () => false) =>
  !off(kind) && ports.some((port) => supplies(port, kind) || unswitched(port));
const phantom = (asked) =>
  fed(asked, "phantom") || asked.leads.some((lead) => volts(lead).some(({ high }) => high >= MANY));
const mains = ({ powered_by }) => powered_by.some((way) => way !== "battery");
const splits = ({ ends }) => Object.keys(ends).length > 2;

/* The conditions (WHEN of generator/catalogue/caution.py says what each is): is it there between these two ports, through these leads? `off` says of
   a supply whether the setting that was chosen has it off, `calm` whether the answer is safe, with plugging and that setting: then a supply does
   nothing. */
export const CONDITIONS = {
  phantom: (asked) => !asked.calm && phantom(asked),
  "meets-phantom": phantom,
  "t-power": (asked) => !asked.calm && fed(asked, "t-power"),
  "plug-in-power": (asked) => !asked.calm && fed(asked, "plug-in-power", few),
  "needs-power": ({ outlet }) => outlet.needs.length > 0,
  "full-battery": ({ outlet }) => drives(outlet, "power") && volts(outlet).some(({ high }) => high >= FULL),
  microphone: ({ outlet }) => drives(outlet, "microphone"),
  line: ({ outlet }) => drives(outlet, ...LINE),
  data: ({ outlet }) => drives(outlet, ...DATA),
  amplifier: ({ outlet }) => drives(outlet, "loudspeaker"),
  stereo: ({ outlet }) => outlet.sources.length > 1,
  balanced: ({ outlet }) => outlet.sources.some(({ balanced }) => balanced),
  headphones: ({ inlet }) => hears(inlet, "headphone"),
  mains: ({ ports, leads }) => ports.filter(mains).length * (leads.some(splits) ? 2 : 1) > 1,
  "more-leads": ({ leads }) => leads.length > 1,
  "not-safe": ({ calm }) => !calm,
  "another-use": () => false,
};

/* What to take care of here, each once. `setting` is the one of the answer's that was chosen, if one was; a supply is off where all switches of its kind
   are. Where nothing could be judged (null), all is told. */
export function careful(question, judged, setting = null) {
  const outlet = port(question.from),
    inlet = port(question.into),
    leads = question.through.map(lead);
  const calm =
    judged && judged.verdict === "safe" && !judged.offer && (!setting || setting.verdict === "safe");
  const asked = { outlet, inlet, ports: [outlet, inlet], leads, calm, off };
  const applies = ({ when }) => !judged || !when.length || when.some((name) => CONDITIONS[name](asked));
  return [
    ...new Set(
      askedOf(question)
        .flatMap(({ cautions }) => cautions)
        .filter(applies)
        .map(({ says }) => says),
    ),
  ];

  function off(id) {
    const states = Object.entries(setting ? setting.supplies : {})
      .filter(([key]) => key.endsWith(id))
      .map(([, state]) => state);
    return states.length > 0 && states.every((state) => state === "off");
  }
}
