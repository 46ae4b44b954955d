// worker.js: the service worker. After one visit the whole site works offline.
// A file is kept only if its bytes are the ones that the builder saw, so half a
// download, a captive portal's page or a mix of two versions never gets in. A
// new version waits, complete, until the person takes it. The builder sets
// self.cupsumVersion and self.cupsumFiles in front of this.
const version = self.cupsumVersion;
// [path, the SHA-256 sums of the bytes that are right]
const files = self.cupsumFiles;
const home = new URL("./", self.location).href;
const mine = "cupsum " + new URL(home).pathname + " ", cacheName = mine + version;

const right = async (response, sums) => {
  if (!response?.ok) return false;
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", await response.clone().arrayBuffer()));
  return sums.includes(btoa(String.fromCharCode(...sum)));
};

// First what an older version kept, then what the browser just fetched for the
// page, then the network: nobody pays twice for the same bytes.
async function obtain(path, sums) {
  const url = new URL(path, home).href;
  const plain = url.split("?")[0];
  for (const name of await caches.keys()) {
    if (!name.startsWith(mine)) continue;
    const kept = await (await caches.open(name)).match(plain, { ignoreSearch: true });
    if (await right(kept, sums)) return [url, kept];
  }
  for (const cache of ["force-cache", "reload"]) {
    const response = await fetch(url, { cache, credentials: "same-origin" });
    if (await right(response, sums)) return [url, response];
  }
  throw new Error(url + " is not the file of version " + version);
}

addEventListener("install", (e) => e.waitUntil((async () => {
  try {
    const got = await Promise.all(files.map(([path, sums]) => obtain(path, sums)));
    const cache = await caches.open(cacheName);
    for (const [url, response] of got) await cache.put(url, response);
  } catch (err) {
    await caches.delete(cacheName);
    throw err; // the browser drops this worker and tries again at a later visit
  }
})()));

addEventListener("activate", (e) => e.waitUntil((async () => {
  for (const name of await caches.keys())
    if (name.startsWith(mine) && name !== cacheName) await caches.delete(name);
})()));

addEventListener("message", (e) => { if (e.data === "activate") self.skipWaiting(); });

addEventListener("fetch", (e) => {
  if (e.request.method !== "GET" || !e.request.url.startsWith(home)) return;
  e.respondWith((async () => {
    let plain = e.request.url.split(/[?#]/)[0];
    if (plain === home + "index.html") plain = home;
    try {
      const cache = await caches.open(cacheName);
      const kept = await cache.match(plain, { ignoreSearch: true });
      if (kept) return kept;
    } catch {}
    return fetch(e.request);
  })());
});
