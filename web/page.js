// page.js: second part of cupsum.js. What app/browser calls from Go. Whatever a
// browser may throw is caught here.
const cupsum = (window.cupsum = {
  embedded: window.parent !== window,

  print() {
    try { window.print(); } catch (err) { console.error(err); }
  },

  download(name, mime, text) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: mime }));
    link.download = name;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  },

  pick(accept, limit, done) {
    const input = document.createElement("input");
    input.type = "file";
    input.accept = accept;
    input.className = "unseen";
    input.id = "picked-file"; // in the document, so that tests can fill it
    input.addEventListener("cancel", () => input.remove());
    input.addEventListener("change", async () => {
      const file = input.files[0];
      input.remove();
      if (!file) return;
      let text = null;
      if (file.size <= limit) try { text = await file.text(); } catch {}
      done(file.name, file.size, text);
    });
    document.getElementById("picked-file")?.remove();
    document.body.append(input);
    input.click();
  },

  focus(id) {
    const target = document.getElementById(id);
    target?.focus();
    return !!target && document.activeElement === target;
  },

  // Calls f after the next frame, which has the processor to itself for a while;
  // soon, where there are no frames.
  afterFrame(f) {
    const once = () => { clearTimeout(last); f?.(); f = null; };
    const last = setTimeout(once, 250); // a page in the background
    requestAnimationFrame(() => setTimeout(once, 30));
  },

  // Makes inputs show what the program has: id, text, id, text.
  setValues(...pairs) {
    for (let i = 0; i < pairs.length; i += 2) {
      const target = document.getElementById(pairs[i]);
      if (target && target.value !== pairs[i + 1]) target.value = pairs[i + 1];
    }
  },

  // Tells the program what a person pressed and typed, and nothing else: each
  // event that wakes it costs a slow phone a few milliseconds. What can be
  // pressed carries data-do and data-arg, what can be typed into data-in.
  listen(tell) {
    window.onclick = window.onpopstate = null; // go-app's: the browser follows links itself
    const on = (type, f) => document.addEventListener(type, f);
    const open = (e) => e.target.id === "food" && e.target.getAttribute("aria-expanded") === "true";
    on("click", (e) => {
      const pressed = e.target.closest("[data-do]");
      if (!pressed || pressed.href && (e.ctrlKey || e.metaKey || e.shiftKey)) return;
      if (pressed.href) e.preventDefault(); // the program goes there, with the focus
      // The argument is the button's own, or that of the line it is in.
      tell("press", pressed.dataset.do, pressed.closest("[data-arg]")?.dataset.arg ?? "");
      if (pressed.href) document.activeElement.scrollIntoView();
    });
    on("input", (e) => {
      const c = e.target, field = c.closest("[data-in]"); // itself, or the group of radio buttons that it is in
      if (!field || (c.type === "radio" && !c.checked)) return;
      if (c.value.isWellFormed?.() === false) return; // half a character: the other half comes at once
      const none = c.value === "-" && (c.type === "radio" || c.type === "select-one"); // see noValue in app/ui
      tell("type", field.dataset.in, none ? "" : c.value);
    });
    on("keydown", (e) => { // the keys that move in the list of foods
      if (e.target.id !== "food" || e.isComposing || !["ArrowDown", "ArrowUp", "Enter", "Escape"].includes(e.key)) return;
      if (e.key !== "Escape" || open(e)) e.preventDefault();
      tell("key", e.key, "");
    });
    // The focus stays in the food field while a food is picked from its list; else
    // the list would close under the finger.
    on("mousedown", (e) => { if (e.target.closest("[role=option]")) e.preventDefault(); });
    on("focusout", (e) => { if (open(e)) tell("leave", "", ""); });
  },

  // The region is emptied first, so that the same sentence twice is heard twice.
  announce(text) {
    const live = document.getElementById("live");
    if (!live) return;
    live.textContent = "";
    clearTimeout(this.speaking);
    this.speaking = setTimeout(() => { live.textContent = text; }, 60);
  },

  fragment() {
    const raw = location.hash.slice(1);
    try { return decodeURIComponent(raw); } catch { return raw; }
  },

  setFragment(text) {
    try {
      history.replaceState(history.state, "", location.pathname + location.search + (text ? "#" + encodeURI(text) : ""));
    } catch (err) { console.error(err); }
  },

  today() {
    const now = new Date(), two = (n) => String(n).padStart(2, "0");
    return now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate());
  },

  onUpdate(f) { this.updateReady = f; if (this.waiting) f(); },
  applyUpdate() { this.waiting ? this.waiting.postMessage("activate") : location.reload(); },
});
