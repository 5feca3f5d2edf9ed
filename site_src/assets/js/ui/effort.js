/* Of ways that end alike, which one a person would reach for. */

import { lead } from "./catalogue.js";

const CARE = 100; // a lead that has to be warned of comes after one that has not
const LONGEST = 99; // m

/* Fewest leads first; among them what most bags hold: a plain cable before an adapter, a short one before a long one. */
export const effort = ({ through }) =>
  through
    .map(lead)
    .reduce(
      (sum, lead) =>
        sum +
        1000 +
        2 * CARE * Ringfence.engine.FORMS.indexOf(lead.form) +
        (lead.cautions.length ? CARE : 0) +
        Math.min(lead.length || 0, LONGEST),
      0,
    );
