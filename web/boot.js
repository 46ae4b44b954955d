// boot.js: last part of cupsum.js, on the program's page only. Fetches the
// program, shows how far it is, starts it, hands over what was typed meanwhile,
// and registers the worker that makes the page work offline.
// The goapp... names are what go-app looks for in the window.
const env = {
  GOAPP_ROOT_PREFIX: location.pathname, // whatever folder we are in, the route is "/"
  GOAPP_STATIC_RESOURCES_URL: ".",
  GOAPP_INTERNAL_URLS: "[]",
};
window.goappGetenv = (key) => env[key] ?? "";

(() => {
  const loading = document.getElementById("loading");
  const say = loading.querySelector("[data-say]"), bar = loading.querySelector("progress");
  const retry = loading.querySelector("button");
  const { wasm, size, fallback } = loading.dataset;

  async function start() {
    retry.hidden = true;
    bar.hidden = false;
    loading.hidden = false;
    loading.removeAttribute("role");
    show(0);
    let stage = "fetch";
    try {
      const go = new Go();
      const { instance } = await program(go.importObject);
      cupsum.memory = () => instance.exports.mem.buffer.byteLength; // for the benchmark
      stage = "run";
      await cupsum.store.ready;
      const restore = handOver(), view = shown();
      const ended = go.run(instance).then(() => { throw new Error("the program ended"); });
      await Promise.race([view, ended]);
      restore();
      loading.hidden = true;
      document.getElementById("not-kept").hidden = !cupsum.store.memory;
      document.documentElement.dataset.ready = Math.round(performance.now());
      worker();
      await ended; // a Go program that ends has crashed
    } catch (err) {
      console.error(err);
      fail(stage);
    }
  }

  // The old content stays until go-app puts the program's root in its place.
  function shown() {
    const before = document.body.firstElementChild;
    return new Promise((done) => {
      new MutationObserver((_, watch) => {
        if (document.body.firstElementChild === before) return;
        watch.disconnect();
        done();
      }).observe(document.body, { childList: true });
    });
  }

  function show(seen) {
    const mb = (n) => (n / 1e6).toLocaleString(document.documentElement.lang, { minimumFractionDigits: 1, maximumFractionDigits: 1 });
    bar.max = size;
    bar.value = Math.min(seen, size);
    say.textContent = `${loading.dataset.text} ${mb(Math.min(seen, size))} / ${mb(Number(size))} MB`;
  }

  function fail(stage) {
    bar.hidden = true;
    loading.hidden = false;
    loading.setAttribute("role", "alert");
    say.textContent = stage === "fetch" ? loading.dataset.failed : loading.dataset.stopped;
    retry.hidden = false;
    retry.onclick = stage === "fetch" ? start : () => location.reload();
  }

  // The program comes gzipped, also from hosts that compress nothing. A host
  // that names the compression itself hands it over unpacked, so the first bytes
  // decide.
  async function program(imports) {
    const bytes = await source();
    const module = new Response(bytes, { headers: { "Content-Type": "application/wasm" } });
    if (WebAssembly.instantiateStreaming) return WebAssembly.instantiateStreaming(module, imports);
    return WebAssembly.instantiate(await module.arrayBuffer(), imports);
  }

  async function source() {
    // A page without an origin of its own (sandboxed frame, file on a disk) may
    // not fetch; a script it may load, so the program also comes as one.
    const mute = self.origin === "null" || location.protocol === "file:";
    const response = mute ? await asScript() : await fetch(wasm);
    if (!response.ok) throw new Error(wasm + ": HTTP " + response.status);
    const reader = response.body.getReader();
    const first = await reader.read();
    const zipped = first.value?.[0] === 0x1f && first.value[1] === 0x8b;
    let seen = 0;
    const count = (chunk) => {
      seen += chunk.byteLength;
      // Unpacked bytes are not the ones that were waited for; scale them down.
      show(zipped ? seen : seen * size / Number(loading.dataset.raw));
    };
    const stream = new ReadableStream({
      start(out) { count(first.value); out.enqueue(first.value); },
      async pull(out) {
        const { done, value } = await reader.read();
        if (done) return out.close();
        count(value);
        out.enqueue(value);
      },
      cancel: (why) => reader.cancel(why),
    });
    return zipped ? stream.pipeThrough(new DecompressionStream("gzip")) : stream;
  }

  function asScript() {
    bar.removeAttribute("value"); // how far it is can't be seen
    say.textContent = loading.dataset.text;
    return new Promise((yes, no) => {
      const script = document.createElement("script");
      cupsum.program = (text) => {
        const raw = atob(text), bytes = new Uint8Array(raw.length);
        for (let i = 0; i < raw.length; i++) bytes[i] = raw.charCodeAt(i);
        yes(new Response(bytes));
      };
      script.onerror = () => no(new Error(fallback + " did not come"));
      script.src = fallback;
      document.head.append(script);
    });
  }

  // What a person typed, chose or focused before the program was there is
  // carried over by the elements' ids.
  function handOver() {
    const old = document.body.firstElementChild;
    const typed = [...old.querySelectorAll("input[id], select[id], textarea[id]")]
      .filter((c) => (c.type === "checkbox" || c.type === "radio" ? c.checked !== c.defaultChecked
        : c.tagName === "SELECT" ? [...c.options].some((o) => o.selected !== o.defaultSelected) : c.value !== c.defaultValue))
      .map((c) => ({ id: c.id, value: c.value, checked: c.checked }));
    const active = old.contains(document.activeElement) ? document.activeElement : null;
    let from = null, to = null;
    try { from = active?.selectionStart ?? null; to = active?.selectionEnd ?? null; } catch {}
    const at = { id: active?.id, x: scrollX, y: scrollY };
    return () => {
      for (const { id, value, checked } of typed) {
        const c = document.getElementById(id);
        if (!c) continue;
        c.value = value;
        if (checked !== undefined) c.checked = checked;
        c.dispatchEvent(new Event("input", { bubbles: true }));
        c.dispatchEvent(new Event("change", { bubbles: true }));
      }
      const target = at.id && document.getElementById(at.id);
      if (target) {
        target.focus({ preventScroll: true });
        try { if (from !== null) target.setSelectionRange(from, to); } catch {}
      }
      scrollTo(at.x, at.y);
    };
  }

  // A new worker waits until the person chooses; see app/browser.OnUpdateReady.
  async function worker() {
    if (!("serviceWorker" in navigator) || cupsum.store.memory) return; // nothing may be kept
    try {
      const home = await navigator.serviceWorker.register("worker.js", { updateViaCache: "none" });
      const ready = (w) => { cupsum.waiting = w; cupsum.updateReady?.(); };
      const watch = (w) => w?.addEventListener("statechange", () => {
        if (w.state === "installed" && navigator.serviceWorker.controller) ready(w);
      });
      if (home.waiting && navigator.serviceWorker.controller) ready(home.waiting);
      watch(home.installing);
      home.addEventListener("updatefound", () => watch(home.installing));
      let chosen = false, looked = Date.now();
      const apply = cupsum.applyUpdate;
      cupsum.applyUpdate = function () { chosen = true; apply.call(this); };
      navigator.serviceWorker.addEventListener("controllerchange", () => { if (chosen) location.reload(); });
      document.addEventListener("visibilitychange", () => {
        if (document.hidden || Date.now() - looked < 3_600_000) return;
        looked = Date.now();
        home.update().catch(() => {});
      });
    } catch (err) {
      console.info("not kept for offline use:", err?.message || err);
    }
  }

  start();
})();
