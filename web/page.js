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

  setValue(id, value) {
    const target = document.getElementById(id);
    if (target && target.value !== value) target.value = value;
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
