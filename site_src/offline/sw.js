"use strict";

/* Keeps the check working without a network. What it keeps, and under which version, stands in offline-list.js, which the
   generator writes. A new version waits until the person asks for it: nothing changes under their hands. */
importScripts("offline-list.js");

const PREFIX = "ringfence-";
const KEPT = PREFIX + self.OFFLINE.version; // listed files, all of one version
const SEEN = PREFIX + "seen"; // other pages of ours, as last seen

const own = (url) => url.startsWith(self.registration.scope);

self.addEventListener("install", (event) => event.waitUntil(keep()));

/* The list, and whatever the check page itself asks for (the theme's own files carry changing names). All or nothing. */
async function keep() {
  const page = await (await fetch("check/", { cache: "reload" })).text();
  const asked = [...page.matchAll(/"([^"#?\s]+\.(?:css|js|svg))"/g)]
    .map(([, link]) => new URL(link, new URL("check/", self.registration.scope)).href).filter(own);
  const listed = self.OFFLINE.files.map((file) => new URL(file, self.registration.scope).href);
  const cache = await caches.open(KEPT);
  await cache.addAll([...new Set([...listed, ...asked])].map((url) => new Request(url, { cache: "reload" })));
}

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
  const kept = await (await caches.open(KEPT)).match(request, { ignoreSearch: true });
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
