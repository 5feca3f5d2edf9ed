"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.interference = Ringfence.interference || {};

/* What length costs in treble. */
(function (runs) {
  runs.treble = function (sourceOhm, farad, hertz) {
    const corner = sourceOhm && farad ? 1 / (2 * Math.PI * sourceOhm * farad) : Infinity;
    return -10 * Math.log10(1 + (hertz / corner) ** 2);
  };
})(Ringfence.interference);
