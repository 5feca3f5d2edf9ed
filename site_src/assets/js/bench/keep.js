/* A lead of the bench with a name is a lead of the kit: kept on this device, in every list of leads. */

import { el } from "../ui/dom.js";
import { withOwn } from "../ui/own.js";
import { write } from "./address.js";

/* The section that names and keeps a wiring. `told.name` is what was typed, here or in the offer below. */
export function keeping(wiring, told, root, announce) {
  const name = el("input", {
    type: "text",
    id: "rf-bench-name",
    maxlength: "60",
    value: told.name,
    "data-key": "lead name",
    oninput: () => {
      told.name = name.value;
    },
  });
  const fault = el("p", { class: "rf-fault", role: "alert" }),
    done = el("p", { class: "rf-bench__kept" });

  async function keep(event) {
    event.preventDefault();
    fault.textContent = done.textContent = "";
    if (!(await withOwn())) {
      fault.textContent =
        "The scripts that keep it did not load. Nothing was lost: try again with a network.";
      return;
    }
    const words = Ringfence.own.name(name.value);
    if (!words) {
      fault.textContent = "A lead needs a name, so that you find it again.";
      return;
    }
    const made = Ringfence.own.addLead({ name: words, wiring: write(wiring) });
    fault.textContent = made.fault;
    if (made.fault) return;
    done.replaceChildren(
      `${words} is in your kit. `,
      el("a", { href: `${root}bag/` }, "My kit"),
      " · ",
      el("a", { href: `${root}check/#through=${made.id}` }, "Check with it"),
    );
    announce(`${words} is in your kit`);
  }
  return el(
    "section",
    { class: "rf-bench__keep" },
    el("h2", {}, "Put it in my kit"),
    el(
      "form",
      { class: "rf-form", onsubmit: keep },
      el(
        "label",
        { class: "rf-field rf-field--wide", for: "rf-bench-name" },
        el("span", {}, "Name of this lead"),
        name,
      ),
      el(
        "button",
        { type: "submit", class: "rf-button rf-button--quiet", "data-key": "keep lead" },
        "Keep it",
      ),
    ),
    fault,
    done,
  );
}
