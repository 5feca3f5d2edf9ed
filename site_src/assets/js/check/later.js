"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* "Show the working" comes after the verdict: its scripts are asked for when there is something to show the working of. */
(function (check, ui) {
  /* Where the button will stand; it goes away again where no circuit decides. */
  check.working = function (question, finding) {
    const place = ui.el("div", { class: "rf-working" });
    ui.later("working").then((loaded) => {
      const shown = loaded && check.worked(question, finding);
      if (shown) place.replaceWith(shown);
      else place.remove();
    });
    return place;
  };
})(Ringfence.check, Ringfence.ui);
