"use strict";

/* Answers for the whole site without a network. What it keeps, and under which version, stands in offline-list.js, which is written when the
   site is built. A new version waits until the person asks for it: nothing changes under their hands. */
importScripts("offline-list.js");

const PREFIX = "ringfence-";
const KEPT = PREFIX + self.OFFLINE.version; // listed files, all of one version
const SEEN = PREFIX + "seen"; // what else of ours was asked for, as last seen
const PACK = "offline/site.pack", PLACES = "offline/site.json"; // pages and drawings, each compressed; where each one begins
let places = null;

const own = (url) => url.startsWith(self.registration.scope);

/* All or nothing. */
self.addEventListener("install", (event) => event.waitUntil(caches.open(KEPT).then((cache) => cache.addAll(
  self.OFFLINE.files.map((file) => new Request(new URL(file, self.registration.scope), { cache: "reload" }))))));

self.addEventListener("activate", (event) => event.waitUntil((async () => {
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== KEPT && name !== SEEN);
  await Promise.all(old.map((name) => caches.delete(name)));
  await self.clients.claim();
})()));

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && own(event.request.url)) event.respondWith(answer(event.request));
});

async function answer(request) {
  const cache = await caches.open(KEPT), kept = (await cache.match(request, { ignoreSearch: true })) || (await unpacked(cache, request));
  if (kept) return kept;
  const seen = await caches.open(SEEN);
  try {
    const fresh = await fetch(request);
    if (fresh.ok) await seen.put(request, fresh.clone());
    return fresh;
  } catch (unreachable) {
    return (await seen.match(request, { ignoreSearch: true })) || Response.error();
  }
}

/* A page or a drawing out of the pack, or null. A browser that cannot decompress keeps what it has seen. */
async function unpacked(cache, request) {
  if (typeof DecompressionStream !== "function") return null;
  const file = (name) => cache.match(new URL(name, self.registration.scope));
  places = places || await (await file(PLACES)).json();
  const path = new URL(request.url).pathname.slice(new URL(self.registration.scope).pathname.length).replace(/(^|\/)index\.html$/, "$1");
  if (!Object.hasOwn(places, path)) return null;
  const [start, length] = places[path], whole = await (await file(PACK)).blob();
  const content = whole.slice(start, start + length).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(content, { headers: { "Content-Type": path.endsWith(".svg") ? "image/svg+xml" : "text/html; charset=utf-8" } });
}
