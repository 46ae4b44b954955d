// store.js: third part of cupsum.js. The rows that package journal keeps, in an
// IndexedDB of this site's folder, so that a copy of the site in a neighbouring
// folder has its own. IndexedDB and not localStorage: only it can say that
// something is on the disk, and browsers hold localStorage back for seconds
// before they write it. Where it is refused, rows live in memory.
cupsum.store = (() => {
  const name = "cupsum " + new URL("./", location.href).pathname;
  const channel = "BroadcastChannel" in window ? new BroadcastChannel(name) : null;
  let rows = new Map(), db = null, last = Promise.resolve();

  const store = {
    memory: false,
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
    request.onupgradeneeded = () => request.result.createObjectStore("rows");
    const late = new Promise((_, no) => setTimeout(no, 30_000, new Error("no answer from IndexedDB")));
    db = await Promise.race([asked(request), late]);
    // Closed or deleted from outside: the person or the browser has cleared the
    // storage. The program is told to look.
    db.onclose = () => { db = null; inTurn(reread); };
    db.onversionchange = () => { db?.close(); db = null; inTurn(reread); };
  }

  async function read() {
    if (store.memory) return;
    if (!db) await open();
    const table = db.transaction("rows").objectStore("rows");
    const [keys, values] = await Promise.all([asked(table.getAllKeys()), asked(table.getAll())]);
    rows = new Map(keys.map((key, i) => [String(key), String(values[i])]));
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
    channel?.postMessage("changed");
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
