"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.page = Ringfence.page || {};

/* Loads a script of this site: resolves to whether it came. */
Ringfence.page.script = (address) => new Promise((done) => {
  const made = document.createElement("script");
  Object.assign(made, { src: address, onload: () => done(true), onerror: () => done(false) });
  document.head.append(made);
});
