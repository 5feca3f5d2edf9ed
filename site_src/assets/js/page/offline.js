/* Starts the service worker, and tells the truth about it: what is kept, that a newer version came or could not. A newer one takes over when a
   page is opened, unless somewhere work is half done; on a page already in use it waits to be asked. */

import { button } from "./button.js";
import { heard, news } from "./standing.js";

function start() {
  const note = document.getElementById("rf-offline"),
    HOUR = 36e5;
  if (location.protocol === "file:") return;

  const { base } = JSON.parse(document.getElementById("__config").textContent); // "../..", or "/" on the page for what is not there
  const top = new URL(base.endsWith("/") ? base : `${base}/`, location.href);
  const FAILED = {
    room: "A newer version could not be kept: this device has no room for it. Free some space, then open this page again with a network.",
    broken:
      "A newer version could not be kept: part of it is not on the site yet, or came broken. Open this page again in a while.",
    network: "A newer version could not be kept: the network went away. Open this page again with a network.",
  };
  let registration = null,
    asked = false,
    looked = Date.now(),
    used = false;

  ask();
  document.addEventListener("visibilitychange", () => {
    if (document.hidden || Date.now() - looked < HOUR) return;
    looked = Date.now();
    ask();
    if (registration) registration.update().catch(() => null);
  });
  if (!("serviceWorker" in navigator)) return;

  for (const name of ["input", "pointerdown", "keydown"])
    addEventListener(
      name,
      () => {
        used = true;
      },
      { once: true, capture: true },
    );
  navigator.serviceWorker.addEventListener("controllerchange", changed);
  navigator.serviceWorker.addEventListener("message", ({ data, ports: [port] }) => {
    if (data && data.ask === "busy" && port) port.postMessage(busy());
    if (data && Object.hasOwn(FAILED, data.failed)) failed(data.failed);
  });
  navigator.serviceWorker.startMessages();
  navigator.serviceWorker
    .register(new URL("sw.js", top), { updateViaCache: "none" })
    .then(watch)
    .catch(() => say("Not kept for offline use: this browser refused, or the site could not be reached."));

  /* The tiny file that names withdrawn versions; only an answer that is one counts as contact. */
  function ask() {
    fetch(new URL("withdrawn.json", top), { cache: "no-store" })
      .then((answer) => (answer.ok ? answer.json() : null))
      .then((said) => {
        if (said && said.withdrawn && typeof said.withdrawn === "object") heard(said.withdrawn);
      })
      .catch(() => null);
  }

  function watch(found) {
    registration = found;
    const come = found.waiting && found.active;
    if (come) arrived(found.waiting, !used);
    else if (found.active) kept();
    settled(() =>
      setTimeout(() => {
        if (found.waiting && found.active && (come || !asked)) arrived(found.waiting, !used);
      }, 2000),
    ); // it may not have heard us, or come just now, unheard
    if (found.installing) follow(found.installing);
    found.addEventListener("updatefound", () => follow(found.installing));
  }

  function follow(coming) {
    coming.addEventListener("statechange", () => {
      if (coming.state === "installed" && registration.active) arrived(coming, false);
      else if (coming.state === "activated" && !asked) kept();
    });
  }

  /* On a page just opened the newer version takes over, if no other page minds; else it is told, and a tap is enough. */
  function arrived(waiting, fresh) {
    news("A newer version is here.", () =>
      button("Use it now", () => {
        asked = true;
        waiting.postMessage("take over");
      }),
    );
    if (fresh)
      settled(() => {
        if (used) return;
        const { port1, port2 } = new MessageChannel();
        asked = true;
        port1.onmessage = () => {
          asked = false;
        };
        waiting.postMessage("take over at rest", [port2]);
      });
  }

  /* Once the page has all it asked for: a browser that stops the old version while it still answers starts it again, and may keep it. */
  function settled(then, seen = -1) {
    const count = performance.getEntriesByType("resource").length;
    if (document.readyState === "complete" && count === seen) then();
    else setTimeout(() => settled(then, count), 300);
  }

  /* Another version answers from now on: a page that asked for it, or that nobody is looking at, is loaded anew; all that was chosen is in its address. */
  let first = !navigator.serviceWorker.controller;
  function changed() {
    if (first)
      first = false; // the very first version has come: this page is of it
    else if (!busy() && (asked || document.hidden)) location.reload();
    else
      news("A newer version has taken over.", () => button("Load this page anew", () => location.reload()));
  }

  function busy() {
    const at = document.activeElement;
    return (
      Boolean(
        at && at.matches("input:not([type=checkbox], [type=radio], [type=button]), textarea") && at.value,
      ) || Boolean(document.querySelector("dialog[open]"))
    );
  }

  function failed(why) {
    if (registration && registration.active) news(FAILED[why]);
    else
      say(
        `Not kept for offline use: ${why === "room" ? "this device has no room for it." : "something could not be loaded."}`,
      );
  }

  /* A store that the browser has not promised to keep may be gone when it is needed most. */
  async function kept() {
    const { port1, port2 } = new MessageChannel(),
      answer = new Promise((done) => {
        port1.onmessage = ({ data }) => done(data);
      });
    registration.active.postMessage("what is kept", [port2]);
    const said = await answer,
      what = {
        all: "Kept on this device: the check works without a network.",
        part: "Not whole on this device at the moment; what is missing is being fetched again.",
        pages:
          "Kept on this device: the check, the bench, the bag and the lists work without a network. This browser cannot unpack the rest: other pages work only where you have opened them before.",
      }[said];
    const lasting = Boolean(navigator.storage && (await navigator.storage.persisted().catch(() => false)));
    tick(said === "part" ? null : said);
    say(
      `${what}${lasting ? "" : " A browser may clear it when space runs short, or after weeks without a visit: look once before you leave."}`,
    );
  }

  /* In the head of every page: a tick and the date of the data that are kept. */
  function tick(whole) {
    const head = document.querySelector(".md-header__inner"),
      meta = document.querySelector("meta[name=edition]"),
      date = meta && new Date(meta.dataset.date);
    const old = head && head.querySelector(".rf-kept");
    if (old) old.remove();
    if (!head || !whole || !date || Number.isNaN(date.getTime())) return;
    const day = date.toLocaleDateString("en-GB", { day: "numeric", month: "short", timeZone: "UTC" }),
      made = document.createElement("p");
    const part = (tag, more) => Object.assign(document.createElement(tag), more),
      mark = part("span", { textContent: "✓" });
    made.className = "rf-kept";
    mark.setAttribute("aria-hidden", "true");
    made.append(
      mark,
      " ",
      part("span", { className: "rf-kept__words", textContent: "Saved for offline, " }),
      part("time", { textContent: day, dateTime: meta.dataset.date }),
    );
    head.insertBefore(made, head.querySelector(".md-search") || null);
  }

  function say(text) {
    if (note) note.textContent = text;
  }
}

start();
