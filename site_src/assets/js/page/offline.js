"use strict";

/* Starts the service worker, and tells the truth about it: what is kept, from when, and that a newer version waits. */
(function () {
  const note = document.getElementById("rf-offline");
  if (!("serviceWorker" in navigator) || location.protocol === "file:") return;

  const { base } = JSON.parse(document.getElementById("__config").textContent); // "../..", or "/" on the page for what is not there
  const worker = new URL("sw.js", new URL(base.endsWith("/") ? base : `${base}/`, location.href));
  let asked = false;

  navigator.serviceWorker.addEventListener("controllerchange", () => { if (asked) location.reload(); });
  navigator.serviceWorker.register(worker, { updateViaCache: "none" }).then(watch).catch(() => say("Not kept for offline use: this browser refused."));

  function watch(registration) {
    if (registration.waiting) offer(registration.waiting);
    else if (registration.active) kept();
    registration.addEventListener("updatefound", () => {
      const coming = registration.installing;
      coming.addEventListener("statechange", () => {
        if (coming.state === "installed" && navigator.serviceWorker.controller) offer(coming);
        else if (coming.state === "activated" && !asked) kept();
        else if (coming.state === "redundant" && !registration.active) say("Not kept for offline use: something could not be loaded.");
      });
    });
  }

  /* A store that the browser has not promised to keep may be gone when it is needed most. */
  async function kept() {
    const lasting = Boolean(navigator.storage && await navigator.storage.persisted().catch(() => false));
    say(`Kept on this device: the check works without a network.${lasting ? "" : " A browser may clear it when space runs short, or after weeks without a visit: look once before you leave."}`);
  }

  const offer = (waiting) => say("A newer version is here. ", Ringfence.page.button("Use it now", () => { asked = true; waiting.postMessage("take over"); }));

  function say(text, ...more) {
    if (note) note.replaceChildren(text, ...more);
  }
})();
