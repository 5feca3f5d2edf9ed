/* Building elements. Text always enters as text: nothing here, or anywhere in the site, parses a string as HTML. */

const SVG = "http://www.w3.org/2000/svg";

/* el("button", {class: "rf-x", onclick: f, "aria-pressed": "true"}, "text", child, ...). null children and attributes are left out. */
export function el(tag, attributes, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else made.setAttribute(name, value === true ? "" : value);
  }
  made.append(...children.flat().filter((child) => child !== null && child !== undefined));
  return made;
}

/* The symbol of a verdict, drawn from the sheet at the top of the page. The word always stands beside it. */
export function mark(verdict) {
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("class", "rf-mark");
  svg.setAttribute("aria-hidden", "true");
  const use = document.createElementNS(SVG, "use");
  use.setAttribute("href", `#mark-${slug(verdict)}`);
  svg.append(use);
  return svg;
}

export const verdict = (verdict) =>
  el("span", { class: `rf-verdict rf-verdict--${slug(verdict)}` }, mark(verdict), verdict);

export const slug = (verdict) => String(verdict).replaceAll(" ", "-");

/* A button that looks and behaves like one: type set, so that it never submits anything. */
export const button = (attributes, ...children) =>
  el("button", { type: "button", ...attributes }, ...children);

/* The box of cautions; null where there are none. */
export const takeCare = (texts) =>
  texts.length
    ? el(
        "div",
        { class: "rf-caution", role: "note" },
        el("p", { class: "rf-caution__head" }, "Take care"),
        el(
          "ul",
          {},
          texts.map((text) => el("li", {}, text)),
        ),
      )
    : null;

/* An own property or undefined: an address may ask for "constructor". */
export const own = (map, key) => (map && Object.hasOwn(map, key) ? map[key] : undefined);
