// frame.js: fourth part of cupsum.js. Tells the page around this frame how high
// the content is. Messages are {cupsum: 1, kind, height}. Only the window around
// us is listened to, and only its "hello" tells us where heights may go; nothing
// else is ever sent.
if (cupsum.embedded) {
  document.documentElement.classList.add("embedded");
  let host = null, sent = 0;
  const tell = () => {
    const height = Math.ceil(document.body.getBoundingClientRect().height);
    if (host && height !== sent) parent.postMessage({ cupsum: 1, kind: "height", height: (sent = height) }, host);
  };
  addEventListener("message", (e) => {
    if (e.source !== parent || e.data?.cupsum !== 1 || e.data.kind !== "hello") return;
    host = e.origin === "null" ? "*" : e.origin;
    sent = 0;
    tell();
  });
  new ResizeObserver(tell).observe(document.body);
  parent.postMessage({ cupsum: 1, kind: "ready" }, "*");
}
