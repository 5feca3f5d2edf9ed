"use strict";

/* Answers for the whole site without a network. What it keeps, each file with its digest, stands in offline-list.js, which is written when the
   site is built. A version is kept whole or not at all; one that is damaged later gives way to the network and is mended from it. */
importScripts("offline-list.js");

const LIST = self.OFFLINE,
  PREFIX = "ringfence-",
  SCOPE = self.registration.scope;
const KEPT = PREFIX + LIST.version; // listed files, all of one version
const SEEN = `${KEPT}-seen`; // what else of ours was asked for while this version was kept, as last seen
const [PACK, PLACES] = ["offline/site.pack", "offline/site.json"]; // pages, drawings and large scripts, compressed some at a time; where each one is
const MARK = "\x01"; // alone on a line it parts two packed files; with a number it stands for a line that many have in common
const OPEN = 8; // members of the pack held unpacked: the pictures of a list are in few
const TYPES = { svg: "image/svg+xml", js: "text/javascript; charset=utf-8" }; // of what is packed; all else there is a page
const NEVER = ["withdrawn.json", "offline-list.js", "sw.js"]; // what tells of newer versions only ever comes from the network
const unpacks = typeof DecompressionStream === "function";
const WANTED = { ...LIST.files, ...(unpacks ? LIST.pack : LIST.pages) }; // path -> digest
let index = null,
  checked = null,
  mending = null;
const opened = new Map(); // where a member begins -> its files

const own = (url) => url.startsWith(SCOPE),
  full = (path) => new URL(path, SCOPE).href;
const pathOf = (url) =>
  new URL(url).pathname.slice(new URL(SCOPE).pathname.length).replace(/(^|\/)index\.html$/, "$1");
const ours = async (but = []) =>
  (await caches.keys()).filter((name) => name.startsWith(PREFIX) && !but.includes(name));

self.addEventListener("install", (event) =>
  event.waitUntil(
    keep().catch(async (fault) => {
      await caches.delete(KEPT);
      await tell({ failed: fault.why || "network" });
      throw fault;
    }),
  ),
);

self.addEventListener("activate", (event) =>
  event.waitUntil(
    (async () => {
      for (const name of await ours([KEPT, SEEN])) await caches.delete(name);
      await self.clients.claim();
    })(),
  ),
);

self.addEventListener("message", (event) => {
  const {
    data,
    ports: [port],
    source,
  } = event;
  if (data === "take over") self.skipWaiting();
  if (data === "take over at rest")
    event.waitUntil(resting(source).then((so) => (so ? self.skipWaiting() : port.postMessage("busy"))));
  if (data === "what is kept") {
    checked = null; // what a worker knows of its store may be older than what befell it
    event.waitUntil(
      whole().then((so) => {
        port.postMessage(so ? (unpacks ? "all" : "pages") : "part");
        return so || mend();
      }),
    );
  }
});

self.addEventListener("fetch", (event) => {
  const { method, url } = event.request;
  if (method === "GET" && own(url) && !NEVER.includes(pathOf(url)))
    event.respondWith(answer(event.request, event));
});

/* Every file is here and is what the list says before any is kept. */
async function keep() {
  const old = await ours([KEPT]),
    got = await Promise.all(
      Object.entries(WANTED).map(async ([path, digest]) => [path, await verified(path, digest, old)]),
    );
  const room = await roomFor(
    got.reduce((sum, [, { body }]) => sum + body.byteLength, 0),
    old,
  );
  if (room === "none") throw Object.assign(new Error("no room"), { why: "room" });
  const before = room === "instead" ? await taken(old) : [];
  try {
    await put(KEPT, got);
  } catch (full) {
    await caches.delete(KEPT);
    for (const [name, files] of before) await put(name, files).catch(() => null);
    throw Object.assign(full, { why: "room" });
  }
  if (before.length) self.skipWaiting(); // nothing of the old one is left to go on with
}

async function put(name, files) {
  const cache = await caches.open(name);
  for (const [path, { body, type }] of files)
    await cache.put(full(path), new Response(body, { headers: { "Content-Type": type } }));
}

/* Where so many bytes find room: "beside" the old version, "instead" of it, or "none". A browser that does not tell is taken at its word later. */
async function roomFor(bytes, old) {
  const { quota, usage } =
    navigator.storage && navigator.storage.estimate
      ? await navigator.storage.estimate().catch(() => ({}))
      : {};
  if (!(quota >= 0 && usage >= 0)) return "beside";
  const need = 1.1 * bytes + 1e5;
  if (quota - usage >= need) return "beside";
  let freed = 0;
  for (const name of old)
    for (const key of await (await caches.open(name)).keys())
      freed += (await (await (await caches.open(name)).match(key)).blob()).size;
  return quota - usage + freed >= need ? "instead" : "none";
}

/* The old stores let go, and what was in them, to be put back if need be: all of the new version is in hand. */
async function taken(old) {
  const held = [];
  for (const name of old) {
    const cache = await caches.open(name),
      files = [];
    for (const key of name.endsWith("-seen") ? [] : await cache.keys()) {
      const found = await cache.match(key);
      files.push([key.url, { body: await found.arrayBuffer(), type: found.headers.get("Content-Type") }]);
    }
    held.push([name, files]);
  }
  for (const name of old) await caches.delete(name);
  return held;
}

/* {body, type} of a file that has this digest: out of an old store, or from the network; a copy on the way there may be stale. */
async function verified(path, digest, old) {
  for (const name of old) {
    const held = await (await caches.open(name)).match(full(path));
    const found = held && (await sound(held, digest));
    if (found) return found;
  }
  for (const cache of ["no-cache", "reload"]) {
    const fresh = await fetch(full(path), { cache, credentials: "same-origin" });
    if (!fresh.ok) throw Object.assign(new Error(`${path}: ${fresh.status}`), { why: "broken" });
    const found = await sound(fresh, digest);
    if (found) return found;
  }
  throw Object.assign(new Error(`${path} is not the one listed`), { why: "broken" });
}

async function sound(response, digest) {
  const body = await response.arrayBuffer(),
    sum = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return btoa(String.fromCharCode(...sum)) === digest
    ? { body, type: response.headers.get("Content-Type") || "application/octet-stream" }
    : null;
}

/* Is every listed file here? Looked at once in the life of the worker, and again when a page asks or something was not. */
function whole() {
  checked =
    checked ||
    (async () => {
      const held = new Set(
        (await caches.has(KEPT)) ? (await (await caches.open(KEPT)).keys()).map(({ url }) => url) : [],
      );
      return Object.keys(WANTED).every((path) => held.has(full(path)));
    })().catch(() => false);
  return checked;
}

async function answer(request, event) {
  const path = pathOf(request.url),
    listed = (await whole()) ? await kept(path) : null;
  if (listed) return listed;
  const damaged = !(await whole());
  if (damaged) event.waitUntil(mend());
  try {
    const fresh = await fetch(request, { cache: "no-cache" }); // what lies on the way may be of another version
    if (!damaged && fresh.ok && !fresh.redirected) event.waitUntil(remember(request, fresh.clone()));
    return fresh.status >= 500 ? (await held(request, path)) || fresh : fresh;
  } catch {
    return (await held(request, path)) || Response.error();
  }
}

const remember = (request, copy) =>
  caches
    .open(SEEN)
    .then((seen) => seen.put(request, copy))
    .catch(() => null); // no room: not remembered

const held = async (request, path) =>
  (await kept(path)) ||
  ((await caches.has(SEEN)) && (await (await caches.open(SEEN)).match(request, { ignoreSearch: true })));

/* A listed file, a page, a drawing or a script out of the pack, or null. What should be here and is not, or does not unpack, is damage. */
async function kept(path) {
  try {
    if (!(await caches.has(KEPT))) throw new Error("no store");
    const cache = await caches.open(KEPT),
      found = await cache.match(full(path));
    if (found) return found;
    if (Object.hasOwn(WANTED, path)) throw new Error(`${path} is gone`);
    return unpacks ? await unpacked(cache, path) : null;
  } catch {
    index = null;
    opened.clear();
    checked = Promise.resolve(false);
    return null;
  }
}

async function unpacked(cache, path) {
  index = index || (await indexed(cache));
  if (!index.places.has(path)) return null;
  const { start, length, at } = index.places.get(path);
  if (!opened.has(start))
    opened.set(
      start,
      member(cache, start, length).then((content) => content.split(`\n${MARK}\n`)),
    );
  if (opened.size > OPEN) opened.delete(opened.keys().next().value);
  const lines = (await opened.get(start))[at].split("\n"); // all of it, before any of it is sent: it may not unpack
  const body = lines
    .map((line) => (line.startsWith(MARK) ? index.common[line.slice(MARK.length)] : line))
    .join("\n");
  return new Response(body, {
    headers: { "Content-Type": TYPES[path.split(".").pop()] || "text/html; charset=utf-8" },
  });
}

async function indexed(cache) {
  const { lines, members } = await (await cache.match(full(PLACES))).json(),
    common = await member(cache, ...lines);
  return {
    places: new Map(
      members.flatMap(([start, length, paths]) => paths.map((path, at) => [path, { start, length, at }])),
    ),
    common: common.split("\n"),
  };
}

async function member(cache, start, length) {
  const pack = await (await cache.match(full(PACK))).blob();
  return new Response(
    pack
      .slice(start, start + length)
      .stream()
      .pipeThrough(new DecompressionStream("gzip")),
  ).text();
}

/* Fetches again what is missing or broken. Where the site no longer has it there should be a newer version; where there is neither, the worker
   goes, and the next visit begins anew. */
function mend() {
  mending =
    mending ||
    (async () => {
      try {
        await put(
          KEPT,
          await Promise.all(
            Object.entries(WANTED).map(async ([path, digest]) => [
              path,
              await verified(path, digest, [KEPT]),
            ]),
          ),
        );
        index = checked = null;
        opened.clear();
      } catch (fault) {
        if (fault.why !== "broken") return; // no network, or no room: another time
        await self.registration.update().catch(() => null);
        if (!self.registration.installing && !self.registration.waiting) await self.registration.unregister();
      }
    })().finally(() => {
      mending = null;
    });
  return mending;
}

/* No other page of ours has work half done. One that does not answer is asleep, and comes back by its address. */
async function resting(asking) {
  const others = (await self.clients.matchAll({ includeUncontrolled: true })).filter(
    ({ id }) => !asking || id !== asking.id,
  );
  const answers = await Promise.all(
    others.map(
      (client) =>
        new Promise((done) => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = ({ data }) => done(data);
          client.postMessage({ ask: "busy" }, [port2]);
          setTimeout(() => done(false), 500);
        }),
    ),
  );
  return !answers.includes(true);
}

async function tell(words) {
  for (const client of await self.clients.matchAll({ includeUncontrolled: true })) client.postMessage(words);
}
