/* Circuit symbols in the manner of IEC 60617 (shapes from memory, the standard was not seen), drawn upright around (0, 0) as SVG paths: the twin
   of symbols.py. Their leads end at y = -HALF and y = +HALF. */

const SVG = "http://www.w3.org/2000/svg";
const HALF = 22;
const CIRCLE = "M-11 0a11 11 0 1 0 22 0a11 11 0 1 0-22 0";
const leads = (inner) => `M0-${HALF}V-${inner}M0 ${inner}V${HALF}`;

/* shape("path", {d: "M0 0"}, child, ...) */
export function shape(tag, attributes, ...children) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) if (value !== null) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

/* What is drawn thin, heavy and filled. */
const DRAWN = {
  resistor: { line: `${leads(13)}M-5.5-13h11v26h-11z` },
  capacitor: { line: leads(3), heavy: "M-10-3H10M-10 3H10" },
  inductor: { line: `${leads(15)}M0-15${"a5 5 0 0 1 0 10".repeat(3)}` },
  emf: { line: `${leads(3)}M-11-3H11M-13-12h6M-10-15v6`, heavy: "M-5 3H5" }, // its + on the left, where no number follows
  signal: { line: `${leads(11)}${CIRCLE}M-6 0C-4-7-1-7 0 0C1 7 4 7 6 0` },
  sink: { line: `${leads(11)}${CIRCLE}M0-6V6M-3.5 1.5L0 6L3.5 1.5` },
  clamp: { line: `${leads(7)}M-8-7H8L0 7ZM-11 3L-8 7H8L11 11` },
  contact: {
    line: `M0-${HALF}V${HALF}`,
    solid: "M-3-8a3 3 0 1 0 6 0a3 3 0 1 0-6 0M-3 8a3 3 0 1 0 6 0a3 3 0 1 0-6 0",
  },
  meter: { line: `${leads(11)}${CIRCLE}` },
};

export const LETTER = {
  resistor: "R",
  capacitor: "C",
  inductor: "L",
  emf: "E",
  sink: "I",
  clamp: "D",
  contact: "K",
  meter: "M",
};
export const SYMBOL_HALF = HALF;

/* The symbol of a part of a working as a list of paths, its first terminal at the top. */
export function symbol(part, nature) {
  const sends = part.kind === "emf" && (nature === "signal" || nature === "test" || part.value === "silent");
  return Object.entries(DRAWN[sends ? "signal" : part.kind]).map(([look, d]) =>
    shape("path", { class: `rf-draw-${look}`, d }),
  );
}
