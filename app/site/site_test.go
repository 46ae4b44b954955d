package site

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"image/color"
	"image/png"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"cupsum/app/lang"
	"cupsum/web"
)

// dry is a build with something in the place of the compiled program, which
// takes its time.
func dry(t *testing.T) *build {
	t.Helper()
	b := &build{Options: Options{
		Dir: t.TempDir(), Words: lang.English(),
		Static: app.Main().Body(app.H1().Text("1/2 < 3/4")),
		Pages:  []Page{{File: "evidence.html", Title: `Rules & "tables"`, Body: app.P().Text("all rows")}},
	}}
	b.wasm = []byte("\x00asm and so on")
	b.wasmGzip = zip(b.wasm)
	b.add(&file{name: "app.wasm.gz", data: b.wasmGzip, first: true, offline: true, also: [][]byte{b.wasm}})
	b.add(&file{name: "app.wasm.js", data: []byte("cupsum.program()\n")})
	for _, step := range steps[1:] {
		if err := step.run(b); err != nil {
			t.Fatalf("%s: %v", step.name, err)
		}
	}
	return b
}

func TestSameSourceSameBytes(t *testing.T) {
	one, two := dry(t), dry(t)
	for i, f := range one.files {
		if g := two.files[i]; f.name != g.name || !bytes.Equal(f.data, g.data) {
			t.Errorf("%s differs between two builds", f.name)
		}
	}
}

var (
	inline   = regexp.MustCompile(`(?i)<script>|<style|\son[a-z]+=|\sstyle=|javascript:`)
	address  = regexp.MustCompile(`(?:href|src)="([^"]*)"`)
	comments = regexp.MustCompile(`(?m)^\s*//.*$`)
)

// Nothing is inline, all addresses are relative and lead to files of the site,
// and all words are there.
func TestPages(t *testing.T) {
	b := dry(t)
	for _, f := range b.files {
		if !strings.HasSuffix(f.name, ".html") {
			continue
		}
		if found := inline.Find(f.data); found != nil {
			t.Errorf("%s has %q inline", f.name, found)
		}
		if !bytes.Contains(f.data, []byte("Content-Security-Policy")) {
			t.Errorf("%s has no policy", f.name)
		}
		if found := regexp.MustCompile(`\[[a-z]+\.[a-z.-]+\]`).Find(f.data); found != nil {
			t.Errorf("%s lacks the words of %s", f.name, found)
		}
		for _, m := range address.FindAllSubmatch(f.data, -1) {
			name, _, _ := strings.Cut(strings.Split(string(m[1]), "#")[0], "?")
			if name == "./" {
				name = "index.html"
			}
			if strings.HasPrefix(name, "/") || strings.Contains(name, ":") {
				t.Errorf("%s leads to %s", f.name, m[1])
				continue
			}
			b.find(name) // panics where there is none
		}
	}
	if index := b.find("index.html").data; !bytes.Contains(index, []byte("<body>\n<main>")) || !bytes.Contains(index, []byte("1/2 &lt; 3/4")) {
		t.Errorf("the static view is not the body's first element:\n%s", index)
	}
	if page := b.find("evidence.html").data; !bytes.Contains(page, []byte("<title>Rules &amp; &#34;tables&#34;</title>")) || !bytes.Contains(page, []byte("all rows")) {
		t.Errorf("the further page:\n%s", page)
	}
}

// The worker's list is what it says: each file with its sum, the program with
// both of its forms.
func TestWorkerList(t *testing.T) {
	b := dry(t)
	text := string(b.find("worker.js").data)
	list := text[strings.Index(text, "self.cupsumFiles=")+len("self.cupsumFiles="):]
	var files [][2]any
	if err := json.NewDecoder(strings.NewReader(list)).Decode(&files); err != nil {
		t.Fatal(err)
	}
	sums := map[string]int{}
	for _, f := range files {
		name, _, _ := strings.Cut(f[0].(string), "?")
		sums[name] = len(f[1].([]any))
	}
	for name, want := range map[string]int{"./": 1, "app.wasm.gz": 2, "cupsum.js": 1, "cupsum.css": 1, "host.html": 1, "embed.js": 1} {
		if sums[name] != want {
			t.Errorf("%s has %d sums, want %d", name, sums[name], want)
		}
	}
	for _, name := range []string{"app.wasm.js", "worker.js", "evidence.html", "icon-512.png"} {
		if sums[name] != 0 {
			t.Errorf("%s is in the list", name)
		}
	}
}

func TestScriptsAreLean(t *testing.T) {
	js := dry(t).find("cupsum.js").data
	if found := comments.Find(js); found != nil {
		t.Errorf("a comment line is left: %s", found)
	}
	// In the order in which they need each other.
	last := -1
	for _, part := range []string{`["localStorage"`, "window.cupsum", "cupsum.store =", "cupsum.embedded)", "globalThis.Go = class", "window.goappGetenv"} {
		at := bytes.Index(js, []byte(part))
		if at <= last {
			t.Errorf("%s is at %d, after %d", part, at, last)
		}
		last = at
	}
}

func TestFurtherPageMayNotReplace(t *testing.T) {
	for _, name := range []string{"index.html", "a/b.html", "cupsum.js"} {
		b := dry(t)
		b.Pages = []Page{{File: name, Body: app.P()}}
		if err := b.furtherPages(); err == nil {
			t.Errorf("a page %q was taken", name)
		}
	}
}

func TestBudget(t *testing.T) {
	b := dry(t)
	b.Budget = 100
	if err := b.write(); err == nil || !strings.Contains(err.Error(), "more than the 100") {
		t.Errorf("error %v", err)
	}
	b.Budget = 10_000_000
	var log bytes.Buffer
	b.Log = &log
	if err := b.write(); err != nil {
		t.Error(err)
	}
	if !strings.Contains(log.String(), "first visit, all of it") {
		t.Errorf("the table:\n%s", &log)
	}
}

func TestRepair(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{`<p>a &lt; b</p>`, `<p>a &lt; b</p>`},
		{"<p\n  title=\"say \\\"hi\\\" & go\">x</p>", `<p title="say &#34;hi&#34; &amp; go">x</p>`},
		{`<span aria-hidden>x</span>`, `<span aria-hidden="true">x</span>`},
		{`<b aria-expanded="false">x</b>`, `<b aria-expanded="false">x</b>`},
		{`<input checked="false" disabled value="½">`, `<input disabled value="½">`},
		{`<img alt="\u00bd cup"/>`, `<img alt="½ cup"/>`},
		{`<br>`, `<br>`},
		{`<p class="`, `<p class"`}, // cut off: it ends
	} {
		if got := repair(tt.in); got != tt.want {
			t.Errorf("%s\n got %s\nwant %s", tt.in, got, tt.want)
		}
	}
	view := app.Button().Title(`"a" <b>`).Aria("pressed", true).Disabled(false).Text("x")
	if got := html(view); !strings.Contains(got, `title="&#34;a&#34; &lt;b&gt;"`) || !strings.Contains(got, `aria-pressed="true"`) || strings.Contains(got, "disabled") {
		t.Errorf("a view of go-app's: %s", got)
	}
}

func FuzzRepair(f *testing.F) {
	f.Add(`<a b="c" d>e</a>`)
	f.Add("<")
	f.Add(`<a ="">`)
	f.Add(`<p title="a\x3cb">`)
	f.Fuzz(func(t *testing.T, s string) {
		if out := repair(s); strings.Count(out, "<") > strings.Count(s, "<") {
			t.Errorf("%q became %q, with a tag more", s, out)
		}
	})
}

func TestIcons(t *testing.T) {
	for _, full := range []bool{false, true} {
		data, err := pngIcon(64, full)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if _, _, _, a := img.At(0, 0).RGBA(); (a == 0xffff) != full {
			t.Errorf("full %v: the corner's alpha is %#x", full, a)
		}
		// What is in the cup, to the quarter mark and no higher.
		if got := color.RGBAModel.Convert(img.At(64*35/100, 64*70/100)); got != accent {
			t.Errorf("the cup is empty: %v", got)
		}
		if got := color.RGBAModel.Convert(img.At(64*35/100, 64*55/100)); got != paper {
			t.Errorf("the cup is fuller than a quarter: %v", got)
		}
	}
	if svg := svgIcon(); bytes.Count(svg, []byte("<path")) != len(drawing(false)) {
		t.Errorf("the SVG: %s", svg)
	}
}

func TestHandler(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"index.html": strings.Repeat("<p>hello", 200), "a.wasm.gz": "\x1f\x8b..", "m.webmanifest": "{}", "s.js": "1"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	h := Handler(dir)
	for _, tt := range []struct {
		path, kind string
		status     int
		packed     bool
	}{
		{"/", "text/html; charset=utf-8", 200, true},
		{"/index.html", "text/html; charset=utf-8", 200, true},
		{"/a.wasm.gz?123", "application/octet-stream", 200, false},
		{"/m.webmanifest", "application/manifest+json", 200, true},
		{"/s.js", "text/javascript; charset=utf-8", 200, true},
		{"/none", "text/plain; charset=utf-8", 404, false},
		{"/../../../etc/passwd", "text/plain; charset=utf-8", 404, false},
	} {
		r := httptest.NewRequest("GET", "http://host"+tt.path, nil)
		r.Header.Set("Accept-Encoding", "gzip")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != tt.status || w.Header().Get("Content-Type") != tt.kind || (w.Header().Get("Content-Encoding") == "gzip") != tt.packed {
			t.Errorf("%s: %d %v", tt.path, w.Code, w.Header())
		}
		if tt.packed {
			z, err := gzip.NewReader(w.Body)
			if err != nil {
				t.Fatal(err)
			}
			if text, err := io.ReadAll(z); err != nil || len(text) == 0 {
				t.Errorf("%s: %q, %v", tt.path, text, err)
			}
		}
		if tt.status != 200 {
			continue
		}
		r.Header.Set("If-None-Match", w.Header().Get("ETag"))
		again := httptest.NewRecorder()
		h.ServeHTTP(again, r)
		if again.Code != http.StatusNotModified {
			t.Errorf("%s again: %d", tt.path, again.Code)
		}
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("POST", "http://host/", nil))
	if w.Code != http.StatusMethodNotAllowed {
		t.Errorf("POST: %d", w.Code)
	}
}

func TestPackageSizes(t *testing.T) {
	for symbol, want := range map[string]string{
		"cupsum_app_ui.view.draft":            "cupsum/app/ui",
		"runtime.main":                        "runtime",
		"encoding_json.__decodeState_.object": "encoding/json",
		"github.com_google_uuid.New":          "github.com/google/uuid",
		"wasm_pc_f_loop":                      "(made by the compiler)",
	} {
		if got := packageOf(symbol); got != want {
			t.Errorf("%s is of %s, want %s", symbol, got, want)
		}
	}
	if _, _, _, err := packageSizes([]byte("\x00asm\x01\x00\x00\x00\x0a\x7f")); err == nil {
		t.Error("took half a module")
	}
}

// The icon and the browser's bars have the page's colours.
func TestColoursAreThePages(t *testing.T) {
	tokens, err := web.Files.ReadFile("css/05-tokens.css")
	if err != nil {
		t.Fatal(err)
	}
	light, dark, _ := strings.Cut(string(tokens), "prefers-color-scheme: dark")
	for want, in := range map[string]string{
		"--paper: " + inCSS(paper): light, "--ink: " + inCSS(ink): light, "--accent: " + inCSS(accent): light,
		"--paper: " + inCSS(darkPaper): dark,
	} {
		if !strings.Contains(in, want+";") {
			t.Errorf("the style has no %s", want)
		}
	}
}
