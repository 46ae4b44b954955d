// store.js: third part of cupsum.js. The rows that package journal keeps, in an
// IndexedDB of this site's folder, so that a copy of the site in a neighbouring
// folder has its own. IndexedDB and not localStorage: only it can say that
// something is on the disk, and browsers hold localStorage back for seconds
// before they write it. Where it is refused, rows live in memory.
//
// A second copy of each row is a file in the browser's cache storage. Chromium
// throws a whole IndexedDB away when it finds damage in it, and it makes such
// damage itself: after a kill in the middle of a write it goes on writing behind
// the half record (LevelDB's issue 1287).
cupsum.store = (() => {
  const home = new URL("./", location.href), name = "cupsum " + home.pathname;
  let channel = null;
  try {
    channel = new BroadcastChannel(name);
  } catch {} // Firefox, to whom nothing may be stored: there are no other tabs to tell
  let rows = new Map(), db = null, last = Promise.resolve(), levelled = false;

  const store = {
    memory: false,
    lost: false, // the browser threw away what was kept, and there was no copy
    onchange: null,
    get rows() { return [...rows].flat(); },
    writer() {
      const random = crypto.getRandomValues(new Uint8Array(12));
      return [...random].map((n) => (n % 36).toString(36)).join("");
    },
    // Writes and readings go one after the other, so that a reading never shows
    // the time before a write that has been answered.
    write(pairs, keys, done) {
      inTurn(async () => done(await write(pairs, keys)));
    },
  };

  const asked = (request) => new Promise((yes, no) => {
    request.onsuccess = () => yes(request.result);
    request.onerror = () => no(request.error);
  });

  async function open() {
    const request = indexedDB.open(name, 1);
    let made = null;
    request.onupgradeneeded = (e) => {
      made = e;
      request.result.createObjectStore("rows");
    };
    db = await within(30_000, asked(request));
    // Closed or deleted from outside: the person or the browser has cleared the
    // storage. The program is told to look.
    db.onclose = () => { db = null; inTurn(reread); };
    db.onversionchange = () => { db?.close(); db = null; inTurn(reread); };
    if (made) await restore(made.dataLoss === "total"); // Chromium's own word for it
  }

  async function read() {
    if (store.memory) return;
    if (!db) await open();
    rows = await stored();
  }

  async function stored() {
    const table = db.transaction("rows").objectStore("rows");
    const [keys, values] = await Promise.all([asked(table.getAllKeys()), asked(table.getAll())]);
    return new Map(keys.map((key, i) => [String(key), String(values[i])]));
  }

  async function reread() {
    await read();
    store.onchange?.();
  }

  async function write(pairs, keys) {
    if (!store.memory) {
      try {
        await commit(pairs, keys);
      } catch (err) {
        if (err?.name === "QuotaExceededError") return "full";
        // A connection that died without a word is opened once more; what was
        // in the store may be gone, so the program is told to look.
        try {
          db = null;
          await reread();
          await commit(pairs, keys);
        } catch (err) {
          console.error(err);
          return err?.name === "QuotaExceededError" ? "full" : "failed";
        }
      }
    }
    for (let i = 0; i < pairs.length; i += 2) rows.set(pairs[i], pairs[i + 1]);
    for (const key of keys) rows.delete(key);
    if (store.memory) return "memory";
    await copy(pairs, keys);
    channel?.postMessage("changed");
    if (!levelled) inTurn(level);
    return "kept";
  }

  async function commit(pairs, keys) {
    if (!db) await reread();
    const work = db.transaction("rows", "readwrite", { durability: "strict" });
    const table = work.objectStore("rows");
    for (let i = 0; i < pairs.length; i += 2) table.put(pairs[i + 1], pairs[i]);
    for (const key of keys) table.delete(key);
    await new Promise((yes, no) => {
      work.oncomplete = yes;
      work.onabort = () => no(work.error || new Error("the write was broken off"));
    });
  }

  // The copies. Each comes after its row is in the database, so a copy that was
  // seen before the database was read, and is not there, is old. What goes wrong
  // with a copy is no reason to say that a row was not kept. A page on plain http
  // has no caches.
  const copies = "cupsum-rows " + home.pathname;
  const address = (key) => new URL("row?" + encodeURIComponent(key), home).href;
  const keyOf = (request) => decodeURIComponent(new URL(request.url).search.slice(1));

  async function copy(pairs, keys) {
    if (!window.caches) return;
    try {
      await within(3000, (async () => {
        const cache = await caches.open(copies), puts = [];
        for (let i = 0; i < pairs.length; i += 2) puts.push(cache.put(address(pairs[i]), new Response(pairs[i + 1])));
        await Promise.all(puts);
        await Promise.all(keys.map((key) => cache.delete(address(key))));
      })());
    } catch (err) {
      console.info("no second copy:", err?.message || err);
    }
  }

  // A database that has just been made takes what there are copies of.
  async function restore(damaged) {
    const pairs = [];
    try {
      await within(10_000, (async () => {
        if (!(await caches.has(copies))) return;
        const cache = await caches.open(copies);
        for (const request of await cache.keys()) {
          try {
            pairs.push(keyOf(request), await (await cache.match(request)).text());
          } catch {} // torn
        }
      })());
    } catch {}
    if (pairs.length) {
      await commit(pairs, []);
      channel?.postMessage("changed");
    } else if (damaged) {
      store.lost = true;
    }
  }

  // Once a page, the copies are brought in line with the rows.
  async function level() {
    levelled = true;
    if (!window.caches) return;
    try {
      const kept = new Set((await (await caches.open(copies)).keys()).map(keyOf)), there = await stored();
      await copy([...there].filter(([key]) => !kept.has(key)).flat(), [...kept].filter((key) => !there.has(key)));
    } catch (err) {
      console.info("copies as they were:", err?.message || err);
    }
  }

  function within(ms, promise) {
    return Promise.race([promise, new Promise((_, no) => setTimeout(no, ms, new Error("no answer in " + ms + " ms")))]);
  }

  function inTurn(step) {
    last = last.then(step).catch((err) => console.error(err));
  }

  // The program does not wait for a slow disk for ever: it starts, writes wait in
  // turn, and what was kept comes as a change.
  let started = false;
  last = read().catch((err) => {
    console.info("nothing is kept here:", err?.message || err);
    store.memory = true;
  }).then(() => { if (started) store.onchange?.(); });
  store.ready = Promise.race([last, new Promise((go) => setTimeout(go, 4000))]).then(() => { started = true; });
  if (channel) channel.onmessage = () => inTurn(reread);
  // A frozen page hears nothing; it looks when it is seen again.
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden && !store.memory) inTurn(reread);
  });
  return store;
})();
