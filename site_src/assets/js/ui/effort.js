"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* Of ways that end alike, which one a person would reach for. */
(function (ui) {
  const FORMS = ["cable", "adapter", "converter", "splitter"]; // from most to least common in a bag

  /* Fewest leads first; among them what most bags hold: a plain cable before an adapter, a short one before a long one. */
  ui.effort = ({ through }) => through.map(ui.lead)
    .reduce((sum, lead) => sum + 1000 + 200 * FORMS.indexOf(lead.form) + Math.min(lead.length || 0, 199), 0);
})(Ringfence.ui);
