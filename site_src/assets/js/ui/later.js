"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* Scripts that a page needs only later. They stand beside the one this was joined into. */
(function (ui) {
  const beside = document.currentScript ? document.currentScript.src : location.href;
  const asked = new Map();

  /* Resolves when the script has run: to true, or to false when it could not be loaded; then the next call tries again. */
  ui.later = function (name) {
    if (!asked.has(name)) {
      asked.set(name, new Promise((done) => {
        const failed = () => { asked.delete(name); done(false); };
        document.head.append(ui.el("script", { src: new URL(`${name}.js`, beside).href, onload: () => done(true), onerror: failed }));
      }));
    }
    return asked.get(name);
  };
})(Ringfence.ui);
