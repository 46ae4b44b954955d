// snippet.js: on the page embed.html alone. Makes the two lines that a person
// pastes into their own page, from what they chose.
(() => {
  const home = new URL("./", location.href), link = "%link%";
  const names = ["section", "lang", "set", "pack"];
  const field = (id) => document.getElementById(id);
  const code = field("code"), said = field("said");
  const quote = (text) => text.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;").replace(/>/g, "&gt;");

  function make() {
    const given = names.map((name) => [name, field(name).value.trim()]).filter(([, value]) => value);
    const target = new URL(home);
    target.hash = new URLSearchParams(given);
    const attributes = given.map(([name, value]) => ` data-${name}="${quote(value)}"`).join("");
    code.value = `<div data-cupsum${attributes}><a href="${quote(target.href)}">${quote(link)}</a></div>\n`
      + `<script async src="${quote(new URL("embed.js", home).href)}"></scr` + `ipt>`;
    said.textContent = "";
  }

  for (const name of names) field(name).addEventListener("input", make);
  field("choices").addEventListener("submit", (e) => e.preventDefault());
  field("copy").addEventListener("click", async () => {
    let ok = true;
    try {
      await navigator.clipboard.writeText(code.value);
    } catch {
      code.focus();
      code.select();
      try { ok = document.execCommand("copy"); } catch { ok = false; }
    }
    said.textContent = ok ? said.dataset.copied : said.dataset.not;
  });
  const origin = home.origin === "null" ? home.href : home.origin;
  field("csp").textContent = `script-src ${origin}\nframe-src ${origin}`;
  make();
})();
