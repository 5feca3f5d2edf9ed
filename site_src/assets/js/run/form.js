"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.run = Ringfence.run || {};

/* The run as a person on set describes it. Every change gives a new run. */
(function (page, runs, ui) {
  /* The groups of the form. `change(edit, whole)` is called with a function that edits a copy; `whole`: the
     form itself looks different then. */
  page.form = (run, tables, change) => [
    page.devices(run, tables, change),
    page.leads(run, tables, change),
    page.beside(run, tables, change),
    page.near(run, tables, change),
    page.radio(run, tables, change),
    page.measured(run, change),
  ];
})(Ringfence.run, Ringfence.interference, Ringfence.ui);
