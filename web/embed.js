// embed.js: for other people's pages. It turns each
//   <div data-cupsum data-section="convert"><a href="...">link</a></div>
// into the calculator in a frame, when it comes near the view. Attributes, all
// optional: data-section, data-lang, data-set, data-pack. The link inside is
// what people see without scripts. Makes no global name and reads nothing of
// the page but these attributes. A page with a content security policy needs
//   script-src <this site>; frame-src <this site>
(() => {
  const here = document.currentScript && new URL(document.currentScript.src);
  if (!here) return;
  const home = new URL("./", here), frames = new Map();

  addEventListener("message", (e) => {
    const frame = frames.get(e.source), data = e.data;
    // A frame that its host sandboxed has the origin "null"; the window is what
    // identifies it.
    if (!frame || (e.origin !== home.origin && e.origin !== "null")) return;
    if (typeof data !== "object" || data === null || data.cupsum !== 1) return;
    frame.link.hidden = true;
    if (data.kind === "ready") e.source.postMessage({ cupsum: 1, kind: "hello" }, e.origin === "null" ? "*" : home.origin);
    if (data.kind === "height" && Number.isInteger(data.height) && data.height > 0)
      frame.style.height = Math.min(data.height, 20000) + "px";
  });

  function fill(place) {
    const options = new URLSearchParams();
    for (const name of ["section", "lang", "set", "pack"]) {
      const value = place.dataset[name];
      if (value) options.set(name, value.slice(0, 16000));
    }
    const src = new URL("?embed", home);
    src.hash = options;
    const frame = document.createElement("iframe");
    frame.src = src;
    frame.title = place.dataset.title || "%title%";
    frame.allow = "clipboard-write";
    frame.style.cssText = "display:block;width:100%;border:0;height:40rem";
    if (place.dataset.sandbox) frame.sandbox = place.dataset.sandbox;
    // The link stays until the frame has said something: where a host's sandbox
    // lets nothing run in it, the link is what people have.
    frame.link = document.createElement("div");
    frame.link.append(...place.childNodes);
    place.append(frame, frame.link);
    frames.set(frame.contentWindow, frame);
  }

  function begin() {
    const near = new IntersectionObserver((seen) => {
      for (const { isIntersecting, target } of seen) {
        if (!isIntersecting) continue;
        near.unobserve(target);
        fill(target);
      }
    }, { rootMargin: "400px" });
    for (const place of document.querySelectorAll("[data-cupsum]")) {
      if (place.dataset.cupsum === "made") continue;
      place.dataset.cupsum = "made"; // the script may be on the page twice
      near.observe(place);
    }
  }
  if (document.readyState === "loading") addEventListener("DOMContentLoaded", begin);
  else begin();
})();
