// Keeps one whole release of the page in a cache, so that it opens and computes without a network.
// A release is whole or refused: every file must have the digest written below when the page was
// built. A new release waits until the page asks for it, or until no page of the old one is open.

// The build (examples/assets.rs) replaces the next line.
const RELEASE = { version: "unbuilt", assets: {}, later: {} };

const FOLDER = new URL("./", self.location);
const INDEX = new URL("index.html", FOLDER);

// Pages of one origin share its caches: the folder in the name keeps two copies of the page apart.
const OURS = "meniscus-";
const HERE = `@${FOLDER.pathname}`;
const CACHE = `${OURS}${RELEASE.version}${HERE}`;

self.addEventListener("install", (event) => event.waitUntil(keepRelease()));
self.addEventListener("activate", (event) => event.waitUntil(dropOldReleases()));
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET") event.respondWith(answer(event.request));
});
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
  if (event.data === "keep the rest") event.waitUntil(keepTheRest());
});

async function keepRelease() {
  const listed = Object.entries(RELEASE.assets);
  if (listed.length === 0) throw new Error("this service worker was not built: it lists no files");
  // All files are fetched and checked before the first is stored.
  const files = await Promise.all(listed.map(([path, digest]) => fetchChecked(path, digest)));
  // Going back to an earlier release can meet its cache still in use: never delete that one.
  const inUse = await caches.has(CACHE);
  try {
    const cache = await caches.open(CACHE);
    await Promise.all(files.map(({ url, response }) => cache.put(url, response)));
    // Who has the later modules keeps them through an update.
    if (await keptTheRest()) await keepTheRest().catch(() => {});
  } catch (error) {
    if (!inUse) await caches.delete(CACHE);
    throw error;
  }
}

async function keptTheRest() {
  const names = (await caches.keys()).filter((name) => name.startsWith(OURS) && name.endsWith(HERE));
  const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
  const modules = Object.keys(RELEASE.later).map((path) => new URL(path.split("-")[0], FOLDER).href);
  return kept.flat().some((request) => modules.some((module) => request.url.startsWith(`${module}-`)));
}

// The rest of the release, which the page works without: file by file, and again at the next start if the network fails.
async function keepTheRest() {
  const cache = await caches.open(CACHE);
  for (const [path, digest] of Object.entries(RELEASE.later)) {
    if (await cache.match(new URL(path, FOLDER).href)) continue;
    await keepOne(path, digest);
  }
}

async function fetchChecked(path, digest) {
  const url = new URL(path, FOLDER).href;
  const reply = await fetch(url, { cache: "reload" });
  if (!reply.ok) throw new Error(`${path}: the server answered ${reply.status}`);
  const body = await reply.arrayBuffer();
  const found = hex(await crypto.subtle.digest("SHA-256", body));
  if (found !== digest) throw new Error(`${path} belongs to another release`);
  // A response of our own, because a browser refuses a stored redirect as an answer to navigation.
  const type = reply.headers.get("content-type") ?? "application/octet-stream";
  return { url, response: new Response(body, { headers: { "content-type": type } }) };
}

async function keepOne(path, digest) {
  const { url, response } = await fetchChecked(path, digest);
  const cache = await caches.open(CACHE);
  // Without room to keep it, it is used all the same.
  await cache.put(url, response.clone()).catch(() => {});
  return response;
}

async function dropOldReleases() {
  const stale = (name) => name.startsWith(OURS) && name.endsWith(HERE) && name !== CACHE;
  const names = await caches.keys();
  await Promise.all(names.filter(stale).map((name) => caches.delete(name)));
}

async function answer(request) {
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return Response.error();
  const wanted = url.pathname === FOLDER.pathname ? INDEX.href : url.origin + url.pathname;
  // A cache that cannot be read stops nobody who has a network.
  const kept = await caches.match(wanted, { cacheName: CACHE, ignoreVary: true }).catch(() => undefined);
  if (kept) return kept;
  try {
    const path = wanted.startsWith(FOLDER.href) ? wanted.slice(FOLDER.href.length) : "";
    const digest = RELEASE.later[path];
    // A file of another release must not meet the page of this one.
    if (digest) return await keepOne(path, digest);
    return await fetch(request);
  } catch (error) {
    // Without a network, a mistyped address below this folder still leads to the page.
    if (request.mode === "navigate") return Response.redirect(FOLDER.href);
    throw error;
  }
}

function hex(buffer) {
  return Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
