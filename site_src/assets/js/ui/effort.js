"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* Of ways that end alike, which one a person would reach for. */
(function (ui) {
  /* Fewest leads first; among them what most bags hold: a plain cable before an adapter, a short one before a long one. */
  ui.effort = ({ through }) => through.map(ui.lead)
    .reduce((sum, lead) => sum + 1000 + 200 * Ringfence.engine.FORMS.indexOf(lead.form) + Math.min(lead.length || 0, 199), 0);
})(Ringfence.ui);
