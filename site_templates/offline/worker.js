"use strict";

// Keeps a whole course on a device, and answers from what is kept, so that its pages open without a connection too. The
// build puts `KEPT` before this file: the version, which is a hash of all the course's files, and each file's own hash.
//
// Pages, scripts and styles of one version belong together. So a version is kept whole or is not used, a file that is
// not what its hash says (a host half-way through an upload) is not kept, and a new version waits until no page of the
// old one is open or a learner asks for it.

/** @type {KeptScope} */
const scope = /** @type {any} */ (self);
const HERE = new URL("./", scope.location.href);
/** One host may hold several courses; each keeps and removes only what is its own. */
const OURS = `bw-offline ${HERE.pathname} `;
const NAME = OURS + KEPT.version;

/** What a file is kept under: its address and its hash, so that a new version takes over what has not changed. @param {string} path */
function keyOf(path) {
  const address = new URL(path.split("/").map(encodeURIComponent).join("/"), HERE);
  address.search = `?${KEPT.files[path]}`;
  return address.href;
}

/** @param {ArrayBuffer} body */
async function hash(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function keepAll() {
  const cache = await caches.open(NAME);
  await Promise.all(Object.keys(KEPT.files).map((path) => keepFile(cache, path)));
}

/** @param {Cache} cache @param {string} path */
async function keepFile(cache, path) {
  const key = keyOf(path);
  const known = await caches.match(key);
  if (known) return cache.put(key, known);
  const found = await fetch(key.replace(/\?.*/, ""), { cache: "no-cache" });
  const body = await found.arrayBuffer();
  if (!found.ok || (await hash(body)) !== KEPT.files[path]) throw new Error(`${path} is not the file of this version`);
  // A response of our own: one that came by way of a redirect may not answer for a page.
  return cache.put(key, new Response(body, { headers: { "Content-Type": found.headers.get("Content-Type") ?? "" } }));
}

/** @param {boolean} all */
async function removeKept(all) {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && (all || name !== NAME)).map((name) => caches.delete(name)));
}

/** The file that an address means, with a host's ways of leaving out its end; nothing where it is none of the course's. @param {string} address */
function findPath(address) {
  const url = new URL(address);
  if (url.origin !== HERE.origin || !url.pathname.startsWith(HERE.pathname)) return undefined;
  const path = decodeURIComponent(url.pathname.slice(HERE.pathname.length));
  return [path, `${path}index.html`, `${path}.html`].find((name) => Object.hasOwn(KEPT.files, name));
}

/** @param {Request} request @param {string} path */
async function answer(request, path) {
  const cache = await caches.open(NAME);
  const kept = await cache.match(keyOf(path));
  if (!kept) return fetch(request); // the browser has made room for itself
  const range = /^bytes=(\d+)-(\d*)$/.exec(request.headers.get("Range") ?? "");
  return range ? cutOut(kept, Number(range[1]), range[2] ?? "") : kept;
}

/** The part of a recording that a player asks for. @param {Response} whole @param {number} first @param {string} last */
async function cutOut(whole, first, last) {
  const body = await whole.arrayBuffer();
  const end = last === "" ? body.byteLength - 1 : Math.min(Number(last), body.byteLength - 1);
  const headers = new Headers(whole.headers);
  headers.set("Content-Range", `bytes ${first}-${end}/${body.byteLength}`);
  return new Response(body.slice(first, end + 1), { status: 206, headers });
}

/** A trainer who turns this off removes this file; what learners have kept then goes too, instead of staying for ever. */
async function leaveIfGone() {
  const found = await fetch(scope.location.href, { method: "HEAD", cache: "no-store" }).catch(() => null);
  if (found?.status !== 404 && found?.status !== 410) return;
  await scope.registration.unregister();
  await removeKept(true);
}

scope.addEventListener("install", (event) => event.waitUntil(keepAll()));
scope.addEventListener("activate", (event) => event.waitUntil(removeKept(false).then(() => scope.clients.claim())));
scope.addEventListener("message", (event) => {
  if (event.data === "take over") event.waitUntil(scope.skipWaiting());
});
scope.addEventListener("fetch", (event) => {
  const path = event.request.method === "GET" ? findPath(event.request.url) : undefined;
  if (path !== undefined) event.respondWith(answer(event.request, path));
  if (event.request.mode === "navigate") event.waitUntil(leaveIfGone());
});
