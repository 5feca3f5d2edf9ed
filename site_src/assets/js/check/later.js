/* "Show the working" comes after the verdict: its scripts are asked for when there is something to show the working of. */

import { el } from "../ui/dom.js";
import { later } from "../ui/later.js";

/* Where the button will stand; it goes away again where no circuit decides. */
export function working(question, finding) {
  const place = el("div", { class: "rf-working" });
  later("working").then((loaded) => {
    const shown = loaded && Ringfence.check.worked(question, finding);
    if (shown) place.replaceWith(shown);
    else place.remove();
  });
  return place;
}
