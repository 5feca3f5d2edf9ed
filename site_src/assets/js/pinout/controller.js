/* The face at the top of a connector's page: which half, which side and which assignment stand in the address, so every view has one. */

import { worn } from "./worn.js";

let root, data;

function start() {
  root = document.querySelector(".rf-pinout");
  if (!root) return;
  data = root.dataset.carries ? JSON.parse(root.dataset.carries) : null;
  root.dataset.live = "";
  root.addEventListener("click", tapped);
  root.addEventListener("keydown", (event) => {
    if (event.key === "Enter" || event.key === " ") tapped(event);
  });
  root
    .querySelectorAll(".rf-carry")
    .forEach((row) =>
      Object.entries({ role: "button", tabindex: "0", "aria-pressed": "false" }).forEach(([name, value]) =>
        row.setAttribute(name, value),
      ),
    );
  window.addEventListener("hashchange", show);
  show();
}

const views = () => [...root.querySelectorAll(".rf-pinout__view")];

/* {half, side, as} as the address has it; what it does not name, or names wrongly, is as the page was made. */
function wanted() {
  const given = new URLSearchParams(location.hash.slice(1)),
    first = views()[0].dataset;
  const legal = (key, value) =>
    value && views().some((view) => view.dataset[key] === value) ? value : first[key];
  const as = given.get("as");
  return {
    half: legal("half", given.get("half")),
    side: legal("side", given.get("side")),
    as: data && as && Object.hasOwn(data.carries, as) ? as : root.dataset.first,
  };
}

function show() {
  const now = wanted();
  views().forEach((view) => {
    view.hidden = view.dataset.half !== now.half || view.dataset.side !== now.side;
  });
  root.querySelectorAll(".rf-pinout__choice a").forEach((link) => {
    const [key] = ["half", "side"].filter((name) => link.dataset[name]);
    if (link.dataset[key] === now[key]) link.setAttribute("aria-current", "true");
    else link.removeAttribute("aria-current");
  });
  if (data) carry(now.as);
}

/* The words and patterns of another assignment, on every view and in the list. */
function carry(as) {
  const chosen = root.querySelector(`.rf-pinout__others [data-as="${CSS.escape(as)}"]`);
  root.querySelectorAll(".rf-pinout__others a").forEach((link) => {
    if (link === chosen) link.setAttribute("aria-current", "true");
    else link.removeAttribute("aria-current");
  });
  if (chosen) {
    const title = root.querySelector(".rf-pinout__as a");
    Object.assign(title, { textContent: chosen.dataset.name, href: chosen.href });
    if (chosen.closest("details")) chosen.closest("details").open = true;
  }
  for (const [contact, [kind, words]] of Object.entries(data.carries[as])) {
    const name = CSS.escape(contact);
    root.querySelectorAll(`[data-contact="${name}"]`).forEach((one) => worn(one, kind, words, data.looks));
  }
}

function tapped(event) {
  const link = event.target.closest("a.rf-chip"),
    contact = event.target.closest("[data-contact]");
  if (link) {
    event.preventDefault();
    const { half, side, as } = { ...wanted(), ...link.dataset };
    location.hash = new URLSearchParams({ ...(as ? { as } : {}), half, side });
  } else if (contact) {
    event.preventDefault();
    light(contact.classList.contains("rf-lit") ? null : contact.dataset.contact);
  }
}

/* One contact lit, everywhere it stands; none for null. */
function light(name) {
  root.classList.toggle("rf-pinout--lit", name !== null);
  root.querySelectorAll("[data-contact]").forEach((one) => {
    one.classList.toggle("rf-lit", one.dataset.contact === name);
    if (one.hasAttribute("aria-pressed"))
      one.setAttribute("aria-pressed", String(one.dataset.contact === name));
  });
}

document.addEventListener("DOMContentLoaded", start);
