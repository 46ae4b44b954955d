// guard.js: first part of cupsum.js, which each page of the site loads.
// A sandboxed frame or blocked cookies make window.localStorage throw when it is
// read. go-app reads it at start, and an exception out of a getter ends the Go
// program. So a stand-in in memory takes its place where it throws.
for (const name of ["localStorage", "sessionStorage"]) {
  try {
    window[name].length;
  } catch {
    const kept = new Map();
    Object.defineProperty(window, name, {
      configurable: true,
      value: {
        getItem: (key) => (kept.has(key) ? kept.get(key) : null),
        setItem: (key, value) => void kept.set(key, String(value)),
        removeItem: (key) => void kept.delete(key),
        clear: () => kept.clear(),
        key: (i) => [...kept.keys()][i] ?? null,
        get length() { return kept.size; },
      },
    });
  }
}
