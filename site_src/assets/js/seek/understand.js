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
  const TURNED = 1.15; // how much better it has to be the other way round: "headphones into laptop"
  const AKIN = { headphone: ["line"], instrument: ["microphone"], line: ["headphone"] }; // what else an end is meant for, where nothing has its own kind

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
    const ends = [found("sources", one), found("listeners", two)], turned = [found("sources", two), found("listeners", one)];
    const sure = ([a, b]) => (a.length && b.length ? a[0].score + b[0].score : 0);
    if (!sure(ends) && !sure(turned)) return null;
    const back = sure(turned) > TURNED * sure(ends), [outlets, inlets] = back ? turned : ends, [first, last] = back ? [two, one] : [one, two];
    const [from, into] = [near(outlets), near(inlets)], kinds = (ids, channels) => new Set(ids.flatMap((id) => Ringfence.data.ports[id][channels].map(({ kind }) => kind)));
    const sent = kinds(from, "sources"), taken = kinds(into, "listeners");
    return { from: one_of(first, suited(from, "sources", taken)), into: one_of(last, suited(into, "listeners", sent)) };
  }

  const near = (list) => list.filter(({ score }) => score >= NEAR * list[0].score).map(({ id }) => id);

  /* Of several that are meant, those of a kind the other end has, where there are such. */
  function suited(ids, channels, kinds) {
    const have = (wanted) => ids.filter((id) => Ringfence.data.ports[id][channels].some(({ kind }) => wanted.has(kind)));
    const [own, akin] = [have(kinds), have(new Set([...kinds].flatMap((kind) => AKIN[kind] || [])))];
    return own.length ? own : akin.length ? akin : ids;
  }

  /* One thing: the only one found, or the only one of them that one meets daily, or often where none is daily. */
  function one_of(text, ids) {
    const met = (how) => ids.filter((id) => Ringfence.data.ports[id].met === how), [daily, often] = [met("daily"), met("often")];
    const sure = ids.length === 1 ? ids : seek.plugOnly(text) ? [] : daily.length ? daily : often;
    const id = sure.length === 1 ? sure[0] : null;
    return { text, id, others: ids.filter((other) => other !== id).slice(0, OTHERS) };
  }
})(Ringfence.seek);
