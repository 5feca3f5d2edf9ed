/* A whole question in words, "dynamic mic into camera mini jack": what is driven from, and into what. What is certain gets an id; the rest keeps its words. */

import { among, plugOnly, words } from "./index.js";

const BETWEEN = ["going into", "goes into", "into", "onto", "->", "→", "to", "in", "on", "for"]; // the surest first
const ASKING =
  /^(?:how (?:do|can) i |can i |which (?:lead|cable|adapter|adaptor)s? (?:do i need |goes )?(?:for |from )?|what (?:lead|cable|adapter|adaptor) (?:do i need )?(?:for |from )?|i (?:have|want|need) (?:to )?|(?:connect|plug|record|hook up|put|get|use)(?:ing)? |from |an? |the |my )/;
const ENDING = /(?:\s+(?:lead|cable|adapter|adaptor|please|\?))+$/;
const NEAR = 0.5; // of the best score: still meant
const OTHERS = 6;
const CLEAR = 1.3,
  BETTER = 1.12; // times as good as the next: meant alone, where several are met daily, and where not
const TURNED = 1.15; // how much better it has to be the other way round: "headphones into laptop"
const LOW = 0.1; // volts: a line output below it is also meant for a microphone input
const HEARS = /(?:phones|buds|cans|iems?|speakers?|monitors?|wedges?)$/; // "headphones into laptop": what one plugs in is what listens
const AKIN = { headphone: ["line"], instrument: ["microphone"], line: ["headphone"], microphone: [] }; // what else an end is meant for, where nothing has its own kind

/* {from, into}, each {text, id, others}; null where it is no question of two ends. `id` is null where several are meant alike. */
export function understand(typed) {
  let text = ` ${typed.toLowerCase()} `.trim().replace(/[?!.]+$/, "");
  for (let before = ""; before !== text; ) [before, text] = [text, text.replace(ASKING, "").trim()];
  text = text.replace(ENDING, "");
  for (const word of BETWEEN) {
    for (let at = text.indexOf(` ${word} `); at > 0; at = text.indexOf(` ${word} `, at + 1)) {
      const ends = [text.slice(0, at), text.slice(at + word.length + 2)].map((part) =>
        part.replace(ASKING, "").trim(),
      );
      const found = ends.every(Boolean) && meant(...ends);
      if (found) return found;
    }
  }
  return null;
}

const ports = (channels) => Object.values(Ringfence.data.ports).filter((port) => port[channels].length);
const found = (channels, text) => [...among(ports(channels), text)].map(([id, { score }]) => ({ id, score }));

const best = ([first]) => (first ? first.score : 0);

/* What a port speaks: kinds of signal, with the form where the kind does not tell all: "line", "data USB", "data MADI". */
const spoken = ({ kind, form, forms }) =>
  form ? [`${kind} ${form}`] : forms?.length ? forms.map((one) => `${kind} ${one}`) : [kind];
const speaks = (id, channels) => Ringfence.data.ports[id][channels].flatMap(spoken);

/* Where the words name a form of signal, and something on either side has it, nothing else is meant: what is driven from, into what, and whether that is the
   other way round than it was said. */
function ofForm(texts, drives, hears) {
  const known = new Set(Object.keys(Ringfence.data.ports).flatMap((id) => speaks(id, "sources")));
  const said = (one, text) =>
    words(one.replace(/^\S+ /, "")).every((word) => words(text).some((typed) => typed.startsWith(word))); // "USB-C" says USB
  const most = texts.map((_, at) => Math.max(best(drives[at]), best(hears[at])));
  const having = (list, channels, form, at) =>
    list.filter(
      ({ id, score }) =>
        speaks(id, channels).some((one) => one === form || form.startsWith(`${one} `)) && // where no form is told it may be this one
        (!said(form, texts[at]) || score >= NEAR * most[at]),
    );
  const ways = [...known]
    .filter((form) => form.includes(" ") && texts.some((text) => said(form, text)))
    .flatMap((form) =>
      [false, true].map((turned) => {
        const [from, into] = turned ? [1, 0] : [0, 1],
          outlets = having(drives[from], "sources", form, from),
          inlets = having(hears[into], "listeners", form, into);
        return { outlets, inlets, turned, fits: (best(outlets) / most[from]) * (best(inlets) / most[into]) };
      }),
    )
    .filter(({ fits }) => fits > 0);
  return ways.sort((a, b) => b.fits - a.fits)[0] || null;
}

function meant(one, two) {
  const [drives, hears] = ["sources", "listeners"].map((channels) =>
    [one, two].map((text) => found(channels, text)),
  );
  const formed = ofForm([one, two], drives, hears);
  const turned = formed
    ? formed.turned
    : (HEARS.test(one) && hears[0].length && drives[1].length) ||
      (best(hears[0]) > TURNED * best(drives[0]) && best(drives[1]) >= best(hears[1]) / TURNED);
  const [first, last] = turned ? [two, one] : [one, two],
    { outlets, inlets } =
      formed ||
      (turned ? { outlets: drives[1], inlets: hears[0] } : { outlets: drives[0], inlets: hears[1] });
  if (!outlets.length || !inlets.length) return null;
  const [from, into] = [
    suited(outlets, "sources", kinds(near(inlets), "listeners")),
    suited(inlets, "listeners", kinds(near(outlets), "sources")),
  ];
  const end = one_of(last, into, []), // "big headphones": the one thing they can be, though others come near
    start = one_of(
      first,
      from,
      into.filter(({ id }) => id === end.id),
    ),
    sure = from.filter(({ id }) => id === start.id);
  return {
    from: start,
    into: sure.length
      ? one_of(last, suited(inlets, "listeners", kinds(sure, "sources")), sure)
      : one_of(last, into, []),
  };
}

const near = (list) => list.filter(({ score }) => score >= NEAR * list[0].score);
const low = ({ kind, nominal }) => kind === "line" && nominal !== undefined && nominal < LOW; // of unknown level too
const kinds = (list, channels) =>
  new Set(
    list.flatMap(({ id }) =>
      Ringfence.data.ports[id][channels].flatMap((one) =>
        low(one) ? [one.kind, "microphone"] : spoken(one),
      ),
    ),
  );
const daily = (list) => list.some(({ id }) => Ringfence.data.ports[id].met === "daily");

/* Of those that are meant, the ones of a kind the other end has; of all that are found, if need be. What one meets daily is not passed over for a rarer one. */
function suited(list, channels, wanted) {
  const have = (some, these) => some.filter(({ id }) => speaks(id, channels).some((one) => these.has(one)));
  const close = near(list),
    akin = new Set([...wanted].flatMap((kind) => AKIN[kind] || [])),
    heard = [...wanted].some((kind) => AKIN[kind]),
    sound = close.some(({ id }) => Ringfence.data.ports[id][channels].some(({ kind }) => AKIN[kind])),
    rarer = (some) => heard && sound && daily(close) && !some.some(({ id }) => Ringfence.data.ports[id].met);
  const own = [
    have(close, wanted),
    have(close, akin),
    have(list, !heard ? wanted : wanted.has("line") ? new Set() : akin),
  ];
  return own.find((some) => some.length && !rarer(some)) || close;
}

const takes = ({ connector, half }) => Object.keys(Ringfence.mated[`${connector}/${half}`] || {});
const direct = (one, two) =>
  one.connector === two.connector ||
  Boolean(Ringfence.ui.mated(one, two)) ||
  takes(one).some((plug) => takes(two).includes(plug)); // of one plug, or straight in

/* One thing, of those that are meant: the only one; the only one that one meets daily, unless a rarer one fits the words clearly better; of several such the
   one that has the other end's plug. */
function one_of(text, list, other) {
  const ids = list.map(({ id }) => id),
    met = (how) => list.filter(({ id }) => Ringfence.data.ports[id].met === how),
    [often, seldom] = [met("daily"), met("often")];
  const straight = (some) =>
    other.length === 1
      ? some.filter(({ id }) => direct(Ringfence.data.ports[other[0].id], Ringfence.data.ports[id]))
      : [];
  const [plain, rare, any] = [straight(often), straight(seldom.length ? seldom : list), straight(list)];
  const sure = () => {
    if (list.length === 1) return list;
    if (plugOnly(text)) return [];
    // What is met daily is told from what else is met daily; "mixer line out" has a rarer twin that fits the words nearly as well.
    const next = often.length > 1 && often[0] === list[0] ? often[1] : list[1];
    const clear = list[0].score > CLEAR * next.score;
    if (any.length === 1 && !plain.length) return often.length ? [] : clear ? [list[0]] : any; // "keyboard to mixer": both are asked about
    if (often.length === 1) return list[0].score > BETTER * often[0].score ? [list[0]] : often;
    if (often.length) return clear ? [list[0]] : plain.length === 1 ? plain : [];
    return list[0].score > BETTER * list[1].score ? [list[0]] : rare.length === 1 ? rare : seldom;
  };
  const found = sure(),
    id = found.length === 1 ? found[0].id : null;
  const fitting = any.map((one) => one.id),
    order = [...fitting, ...ids.filter((one) => !fitting.includes(one))];
  return { text, id, others: order.filter((one) => one !== id).slice(0, OTHERS) };
}
