"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* What a question is about: its records in order, their names as a chain, and what to take care of with them, each once. */
(function (check, ui) {
  check.asked = ({ from, through, into }) => [ui.port(from), ...through.map(ui.lead), ui.port(into)];
  check.names = (question) => check.asked(question).map(({ name }) => name).join(" → ");
  check.careful = (question) => [...new Set(check.asked(question).flatMap(({ cautions }) => cautions))];
})(Ringfence.check, Ringfence.ui);
