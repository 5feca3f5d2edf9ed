"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.seek = Ringfence.seek || {};

/* A whole question in words, "dynamic mic into camera mini jack": what is driven from, and into what. What is certain gets an id; the rest keeps its words. */
(function (seek) {
  const BETWEEN = ["going into", "goes into", "into", "onto", "->", "→", "to", "in", "on", "for"]; // the surest first
  const ASKING = /^(?:how (?:do|can) i |can i |which (?:lead|cable|adapter|adaptor)s? (?:do i need |goes )?(?:for |from )?|what (?:lead|cable|adapter|adaptor) (?:do i need )?(?:for |from )?|i (?:have|want|need) (?:to )?|(?:connect|plug|record|hook up|put|get|use)(?:ing)? |from |an? |the |my )/;
  const ENDING = /(?:\s+(?:lead|cable|adapter|adaptor|please|\?))+$/;
  const NEAR = 0.5; // of the best score: still meant
  const OTHERS = 6;
  const CLEAR = 1.1; // times as good as the next: meant alone
  const AS_GOOD = 0.9; // of the best score: not passed over for being rarer
  const TURNED = 1.15; // how much better it has to be the other way round: "headphones into laptop"
  const HEARS = /(?:phones|buds|cans|iems?|speakers?|monitors?|wedges?)$/; // "headphones into laptop": what one plugs in is what listens
  const AKIN = { headphone: ["line"], instrument: ["microphone"], line: ["headphone"], microphone: [] }; // what else an end is meant for, where nothing has its own kind

  /* {from, into}, each {text, id, others}; null where it is no question of two ends. `id` is null where several are meant alike. */
  seek.understand = function (typed) {
    let text = ` ${typed.toLowerCase()} `.trim().replace(/[?!.]+$/, "");
    for (let before = ""; before !== text;) [before, text] = [text, text.replace(ASKING, "").trim()];
    text = text.replace(ENDING, "");
    for (const word of BETWEEN) {
      for (let at = text.indexOf(` ${word} `); at > 0; at = text.indexOf(` ${word} `, at + 1)) {
        const ends = [text.slice(0, at), text.slice(at + word.length + 2)].map((part) => part.replace(ASKING, "").trim());
        const found = ends.every(Boolean) && meant(...ends);
        if (found) return found;
      }
    }
    return null;
  };

  const ports = (channels) => Object.values(Ringfence.data.ports).filter((port) => port[channels].length);
  const found = (channels, text) => [...seek.among(ports(channels), text)].map(([id, { score }]) => ({ id, score }));

  function meant(one, two) {
    const [drives, hears] = ["sources", "listeners"].map((channels) => [one, two].map((text) => found(channels, text))), best = ([first]) => (first ? first.score : 0);
    const turned = (HEARS.test(one) && hears[0].length && drives[1].length) || best(hears[0]) > TURNED * best(drives[0]) && best(drives[1]) >= best(hears[1]) / TURNED;
    const [first, last, outlets, inlets] = turned ? [two, one, drives[1], hears[0]] : [one, two, drives[0], hears[1]];
    if (!outlets.length || !inlets.length) return null;
    const [from, into] = [suited(outlets, "sources", kinds(near(inlets), "listeners")), suited(inlets, "listeners", kinds(near(outlets), "sources"))];
    return { from: one_of(first, from), into: one_of(last, into) };
  }

  const near = (list) => list.filter(({ score }) => score >= NEAR * list[0].score);
  const kinds = (list, channels) => new Set(list.flatMap(({ id }) => Ringfence.data.ports[id][channels].map(({ kind }) => kind)));
  const daily = (list) => list.some(({ id }) => Ringfence.data.ports[id].met === "daily");

  /* Of those that are meant, the ones of a kind the other end has; of all that are found, if need be. What one meets daily is not passed over for a rarer one. */
  function suited(list, channels, wanted) {
    const have = (some, these) => some.filter(({ id }) => Ringfence.data.ports[id][channels].some(({ kind }) => these.has(kind)));
    const close = near(list), akin = new Set([...wanted].flatMap((kind) => AKIN[kind] || [])), sound = close.some(({ id }) => Ringfence.data.ports[id][channels].some(({ kind }) => AKIN[kind]));
    const own = [have(close, wanted), have(close, akin), [...wanted].some((kind) => AKIN[kind]) ? [] : have(list, wanted)].find((some) => some.length);
    const rarer = own && sound && wanted.size === 1 && wanted.has("line") && daily(close) && !daily(own) && own[0].score < AS_GOOD * close[0].score;
    return !own || rarer ? close : own;
  }

  /* One thing: the only one found, or the only one of them that one meets daily, or often where none is daily. */
  function one_of(text, list) {
    const ids = list.map(({ id }) => id), clear = list.length > 1 && list[0].score > CLEAR * list[1].score;
    const met = (how) => ids.filter((id) => Ringfence.data.ports[id].met === how), [daily, often] = [met("daily"), met("often")];
    const sure = ids.length === 1 ? ids : seek.plugOnly(text) ? [] : clear ? [ids[0]] : daily.length ? daily : often;
    const id = sure.length === 1 ? sure[0] : null;
    return { text, id, others: ids.filter((other) => other !== id).slice(0, OTHERS) };
  }
})(Ringfence.seek);
