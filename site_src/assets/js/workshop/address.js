/* What was heard and read, as the address holds it: `#hear=hum&read=a.1-b.1=0.3,a.2-b.2=open`. */

const WORDS = { open: Infinity, moves: "moves", beep: "beep", silent: "silent", skip: "skip" };
const named = (answer) =>
  Object.keys(WORDS).find((word) => WORDS[word] === answer) || String(Number(answer.toPrecision(6)));

/* A number as people type it: 0.3, 680, 2.2k, 1,5 M; NaN for anything else. */
export function ohms(text) {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*([kM]?)\s*(?:ohm|Ω)?\s*$/.exec(text);
  return found ? Number(found[1].replace(",", ".")) * { "": 1, k: 1e3, M: 1e6 }[found[2]] : NaN;
}

export const write = ({ heard, read }, pairs) =>
  new URLSearchParams([
    ...(heard ? [["hear", heard]] : []),
    ...(read.length ? [["read", read.map(([m, answer]) => `${pairs[m]}=${named(answer)}`).join(",")]] : []),
  ]).toString();

/* Whatever the address says that this lead does not know is left out. */
export function read(hash, { pairs, symptoms }) {
  const asked = new URLSearchParams(hash.replace(/^#/, ""));
  const read = (asked.get("read") || "").split(",").flatMap((text) => {
    const cut = text.lastIndexOf("=");
    const m = pairs.indexOf(text.slice(0, cut));
    const said = text.slice(cut + 1);
    const answer = Object.hasOwn(WORDS, said) ? WORDS[said] : ohms(said);
    return cut < 1 || m < 0 || Number.isNaN(answer) ? [] : [[m, answer]];
  });
  const heard = symptoms.some(({ id }) => id === asked.get("hear")) ? asked.get("hear") : null;
  return { heard, read };
}
