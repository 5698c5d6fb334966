// Keeps one whole version of the app on the device. A new version is fetched beside it and takes
// over only when the user says so; files of two versions never meet.
"use strict";
const VERSION = "@VERSION@";
const FILES = /*@FILES@*/ {}; // path: sha256
const ONLY = /*@ONLY@*/ {}; // renderer: its own files
const TYPES = /*@TYPES@*/ {};
const POLICY = "@CSP@; frame-ancestors 'none'";
const PARALLEL = 4;

const renderer = self.location.search.slice(1);
const unwanted = new Set(Object.entries(ONLY).flatMap(([name, paths]) =>
  name === renderer ? [] : paths));
const wanted = Object.keys(FILES).filter((path) => !unwanted.has(path));
const scope = self.registration.scope;
const PREFIX = `pondapp-files ${new URL(scope).pathname} `; // other copies of the app have theirs
const CACHE = `${PREFIX}${VERSION}`;
const EARLY = /^pondapp-[0-9a-f]{16}$/; // caches from before copies of the app were told apart
const address = (path) => new URL(path, scope).href;

async function hash(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (b) => b.toString(16).padStart(2, "0")).join("");
}

function answer(path, bytes) {
  return new Response(bytes, { headers: {
    "Content-Type": TYPES[path.split(".").pop()] || "application/octet-stream",
    "Content-Length": String(bytes.byteLength),
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Pondapp-Hash": FILES[path],
  } });
}

// The browser's own cache may hold an older file under the same address: then ask past it.
async function download(path) {
  for (const cache of ["default", "reload"]) {
    const response = await fetch(address(path), { cache });
    if (!response.ok) continue;
    const bytes = await response.arrayBuffer();
    if (await hash(bytes) === FILES[path]) return answer(path, bytes);
  }
  throw new Error(`${path} is not the file of version ${VERSION}`);
}

async function keep(cache, others, path) {
  const url = address(path);
  if (await cache.match(url)) return; // from a try that was cut off
  for (const other of others) {
    const kept = await other.match(url);
    if (!kept || kept.headers.get("X-Pondapp-Hash") !== FILES[path]) continue;
    const bytes = await kept.arrayBuffer();
    if (await hash(bytes) === FILES[path]) {
      await cache.put(url, answer(path, bytes));
      return;
    }
  }
  await cache.put(url, await download(path));
}

async function olderCaches() {
  const names = await caches.keys();
  return names.filter((name) => name !== CACHE && (name.startsWith(PREFIX) || EARLY.test(name)));
}

// An early cache may hold another copy of the app too: then only what is of this one goes.
async function forget(name) {
  const cache = await caches.open(name);
  const urls = (await cache.keys()).map((request) => request.url);
  const ours = (url) => url.startsWith(scope) && Object.hasOwn(FILES, url.slice(scope.length));
  if (EARLY.test(name) && urls.some((url) => url.endsWith("/index.html") && !ours(url))) {
    await Promise.all(urls.filter(ours).map((url) => cache.delete(url)));
  } else {
    await caches.delete(name);
  }
}

async function install() {
  const cache = await caches.open(CACHE);
  const others = await Promise.all((await olderCaches()).map((name) => caches.open(name)));
  const queue = [...wanted];
  await Promise.all(Array.from({ length: PARALLEL }, async () => {
    while (queue.length) await keep(cache, others, queue.shift());
  }));
}

async function activate() {
  await Promise.all((await olderCaches()).map(forget));
  await self.clients.claim();
}

async function serve(path) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(address(path));
  if (kept) return kept;
  const response = await download(path); // the browser dropped it, or it is of the other renderer
  await cache.put(address(path), response.clone());
  return response;
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
  if (event.data === "take over") event.waitUntil(self.skipWaiting());
});
self.addEventListener("fetch", (event) => {
  const url = event.request.url.split("#")[0].split("?")[0];
  if (event.request.method !== "GET" || !url.startsWith(scope)) return;
  const path = url.slice(scope.length) || "index.html"; // what is not of the app is the network's
  if (Object.hasOwn(FILES, path)) event.respondWith(serve(path));
});
