"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* What a question is about: its records in order, and their names as a chain. */
(function (check, ui) {
  check.asked = ({ from, through, into }) => [ui.port(from), ...through.map(ui.lead), ui.port(into)];
  check.names = (question) => check.asked(question).map(({ name }) => name).join(" → ");
})(Ringfence.check, Ringfence.ui);
