/* What an instrument would show: the numbers a verdict rests on, before any rule has looked at them. The twin of readings.py. */

export const MAIN = "main"; // the channel of a device that has one only

/* One number. `state` is settled, plugging, switching or signal; `setting` the number of the supply setting, null where supplies do not
   matter; `limit` the part's own rating, `evidence` how that is known; `words` (texts, numbers, Named) fill the {names} in sentences,
   `flags` are what a rule's `only` looks at. `at` is where it was found, null where no voltage or current decides; `terms` are the numbers
   it is made of, each [words, number, unit]. */
export const reading = (quantity, subject, where, value, unit, state, more = {}) => ({
  quantity,
  subject,
  where,
  value,
  unit,
  state,
  setting: null,
  limit: null,
  evidence: null,
  words: {},
  flags: {},
  at: null,
  terms: [],
  ...more,
});

/* Where in the stack of cases a number was found. `nature` is direct, instant, signal, hum or test; `state` the number of a state of the
   assembly; `decides` the id of the part, or the list of two nodes, it is read at; `corner` the tolerances, `off` what a supply does that is
   off; `shared` whether hanging pieces are where their charge is shared. For an instant `before` is the position (a setting with one kind of off) and the state, of `Capacitors.settled`, in which the
   capacitors were charged, `driven` the position now. For signal `source` is the one shown, at `level` V and `hertz`; for hum `pair` numbers the powering. */
export const at = (nature, state, decides, more = {}) => ({
  nature,
  state,
  decides,
  corner: "nominal",
  off: "",
  shared: false,
  before: [0, 0],
  driven: 0,
  hertz: 1000,
  source: "",
  level: 1,
  bare: false,
  pair: 0,
  ...more,
});

/* A device or lead to be named when a sentence is made: readings of equal circuits are equal, names are not. */
export const Named = class Named {
  constructor(place, channel = MAIN) {
    this.place = place;
    this.channel = channel;
  }

  /* `the mixer line input`, or `the left channel of the camera` where a device has several; `my microphone` for one's own. `places` is
     the assembly's Map. */
  among(places) {
    const said = spoken(short(places.get(this.place))),
      name = said.startsWith("my ") ? said : `the ${said}`;
    return this.channel === MAIN ? name : `the ${side(this.channel)} of ${name}`;
  }
};

/* A name inside a sentence: `mixer line input`, but `XLR lead`, `USB-C headset` and `T-power input`. */
export const spoken = (name) => (/^.[a-z]/.test(name) ? name[0].toLowerCase() + name.slice(1) : name);

/* `left channel`; `channel 7` for `ch7`. */
function side(channel) {
  const number = /^ch(?:annel-)?(\d+)$/.exec(channel);
  return number ? `channel ${number[1]}` : `${channel} channel`;
}

/* A device's or lead's name up to its first comma. */
export const short = (record) => record.name.split(",")[0];

/* The words the catalogue has for a part, from a limit on it; null when there are none. */
export function partName(record, part) {
  const limit = record.network.limits.find((one) => one.part === part);
  return limit ? limitName(record, limit) : null;
}

/* A limit's `where`, with its channel, or which conductor of a cable, where there are several alike. */
export function limitName(record, limit) {
  const alike = record.network.limits.filter(
    (other) => other.where === limit.where && other.quantity === limit.quantity,
  );
  const [channel, ...rest] = limit.id.split("."),
    which = channel === limit.where ? rest.join(".") : channel;
  return alike.length > 1 && rest.join(".") && which !== MAIN ? `${limit.where} (${which})` : limit.where;
}

/* What a channel is called in a sentence: "signal" where a device has one only. */
export const channelWord = (channel) => (channel === MAIN ? "signal" : channel);
