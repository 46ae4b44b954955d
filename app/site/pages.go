package site

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"cupsum/app/lang"
	"cupsum/core/guide"
	"cupsum/web"
)

// style joins web/css in order of name.
func (b *build) style() error {
	names, err := fs.Glob(web.Files, "css/*.css")
	if err != nil {
		return err
	}
	var css bytes.Buffer
	for _, name := range names {
		text, err := web.Files.ReadFile(name)
		if err != nil {
			return err
		}
		css.Write(text)
	}
	b.add(&file{name: "cupsum.css", data: lean(css.Bytes()), first: true, offline: true})
	return nil
}

// scripts joins the page's scripts, with Go's own loader before the last, which
// uses it.
func (b *build) scripts() error {
	goroot, err := goEnv("GOROOT")
	if err != nil {
		return err
	}
	loader, err := os.ReadFile(filepath.Join(goroot, "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return err
	}
	var js bytes.Buffer
	for _, name := range []string{"guard.js", "page.js", "store.js", "frame.js", "wasm_exec.js", "boot.js"} {
		text := loader
		if name != "wasm_exec.js" {
			if text, err = web.Files.ReadFile(name); err != nil {
				return err
			}
		}
		js.Write(text)
	}
	b.add(&file{name: "cupsum.js", data: lean(js.Bytes()), first: true, offline: true})

	for _, s := range []struct{ name, place, id string }{
		{"embed.js", "%title%", "embed.frame"},
		{"snippet.js", "%link%", "embed.link"},
	} {
		text, err := web.Files.ReadFile(s.name)
		if err != nil {
			return err
		}
		if !bytes.Contains(text, []byte(s.place)) {
			return fmt.Errorf("%s has no place %s for the words of %s", s.name, s.place, s.id)
		}
		// Inside a string of JavaScript, so quoted as JSON less its quotes.
		word, err := json.Marshal(b.Words.Text(s.id))
		if err != nil {
			return err
		}
		text = bytes.ReplaceAll(text, []byte(s.place), bytes.Trim(word, `"`))
		b.add(&file{name: s.name, data: lean(text), offline: true})
	}
	return nil
}

// lean leaves out comment lines, indentation and empty lines of a script or
// stylesheet. Our scripts have no text that runs over lines, and wasm_exec.js
// has none either.
func lean(text []byte) []byte {
	var out bytes.Buffer
	comment := false
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "/*") {
			comment = true
		}
		if comment {
			comment = !strings.HasSuffix(line, "*/")
			continue
		}
		if line == "" || strings.HasPrefix(line, "//") {
			continue
		}
		out.WriteString(line)
		out.WriteByte('\n')
	}
	return out.Bytes()
}

func (b *build) manifest() error {
	type icon struct {
		Src     string `json:"src"`
		Sizes   string `json:"sizes"`
		Type    string `json:"type"`
		Purpose string `json:"purpose,omitempty"`
	}
	// No id: it counts from the host, so two copies of the site in neighbouring
	// folders would be one app. Without it the start address tells them apart.
	text, err := json.MarshalIndent(map[string]any{
		"name":             b.Words.Text("shell.title"),
		"short_name":       b.Words.Text("shell.short"),
		"description":      b.Words.Text("shell.description"),
		"lang":             b.Words.Tag,
		"start_url":        "./",
		"scope":            "./",
		"display":          "standalone",
		"background_color": inCSS(paper),
		"theme_color":      inCSS(paper),
		"icons": []icon{
			{"icon.svg", "any", "image/svg+xml", ""},
			{"icon-192.png", "192x192", "image/png", ""},
			{"icon-512.png", "512x512", "image/png", ""},
			{"icon-mask.png", "512x512", "image/png", "maskable"},
		},
	}, "", " ")
	b.add(&file{name: "manifest.webmanifest", data: append(text, '\n'), first: true, offline: true})
	return err
}

// fields are what a page's template may use.
type fields struct {
	b                  *build
	Lang               string
	Title, Description string
	Body               template.HTML
	Scripts            []string
	WasmSize, WasmRaw  int
}

// Self is what the content security policy calls the page's own files.
func (f fields) Self() string { return strings.TrimSpace("'self' " + f.b.Origin) }

// Text is a message in the page's language.
func (f fields) Text(id string) string { return f.b.Words.Text(id) }

// Languages are those that the page can be shown in.
func (f fields) Languages() []*lang.Words { return lang.All() }

// choice is a target set to choose.
type choice struct{ ID, Title string }

// Sets are the target sets that an embedding page may ask for, but for those of
// one age, which the person finder gives.
func (f fields) Sets() []choice {
	var list []choice
	titles := map[string]bool{}
	for _, s := range guide.Sets() {
		title := f.b.Words.Line(s.Title())
		if !titles[title] {
			titles[title] = true
			list = append(list, choice{s.ID, title})
		}
	}
	return list
}

// Paper and DarkPaper are the colours of the browser's own bars around the page.
func (f fields) Paper() string     { return inCSS(paper) }
func (f fields) DarkPaper() string { return inCSS(darkPaper) }

// File is the address of a file of the site, marked with its content.
func (f fields) File(name string) string { return f.b.versioned(name) }

func (b *build) page(tmpl string, f fields) ([]byte, error) {
	t, err := template.ParseFS(web.Files, tmpl)
	if err != nil {
		return nil, err
	}
	f.b, f.Lang = b, b.Words.Tag
	f.WasmSize, f.WasmRaw = len(b.wasmGzip), len(b.wasm)
	var out bytes.Buffer
	err = t.Execute(&out, f)
	return out.Bytes(), err
}

func (b *build) index() error {
	// go-app puts the program's root in the place of the body's first element.
	data, err := b.page("index.tmpl", fields{Body: template.HTML(html(b.Static))})
	b.add(&file{name: "index.html", data: data, first: true, offline: true})
	return err
}

// embedPages are the page that makes the lines to paste, and a sample of a page
// that has them.
func (b *build) embedPages() error {
	for _, p := range []struct {
		name, area string
		scripts    []string
	}{
		{"embed", "embed", []string{b.versioned("snippet.js")}},
		{"host", "host", []string{"embed.js"}},
	} {
		body, err := b.page(p.name+".tmpl", fields{})
		if err != nil {
			return err
		}
		data, err := b.page("page.tmpl", fields{
			Title:       b.Words.Text(p.area + ".title"),
			Description: b.Words.Text(p.area + ".description"),
			Body:        template.HTML(body),
			Scripts:     p.scripts,
		})
		if err != nil {
			return err
		}
		b.add(&file{name: p.name + ".html", data: data, offline: true})
	}
	return nil
}

func (b *build) furtherPages() error {
	for _, p := range b.Pages {
		if slices.ContainsFunc(b.files, func(f *file) bool { return f.name == p.File }) || strings.ContainsAny(p.File, `/\?#`) {
			return fmt.Errorf("a page can't have the name %q", p.File)
		}
		data, err := b.page("page.tmpl", fields{Title: p.Title, Description: p.Description, Body: template.HTML(html(p.Body))})
		if err != nil {
			return err
		}
		b.add(&file{name: p.File, data: data, offline: p.Offline})
	}
	return nil
}

// worker writes the service worker with the files that it keeps. Its version is
// a sum over all of them.
func (b *build) worker() error {
	text, err := web.Files.ReadFile("worker.js")
	if err != nil {
		return err
	}
	var files [][2]any
	for _, f := range b.files {
		if !f.offline {
			continue
		}
		path := f.name
		switch {
		case path == "index.html":
			path = "./"
		case f.first && (strings.HasSuffix(path, ".js") || strings.HasSuffix(path, ".css") || strings.HasSuffix(path, ".gz") || strings.HasSuffix(path, ".svg")):
			path = b.versioned(path) // as the page asks for it, so it is in the browser's cache
		}
		files = append(files, [2]any{path, f.sums()})
	}
	list, err := json.Marshal(files)
	if err != nil {
		return err
	}
	version := mark(append(list, text...))
	head := fmt.Sprintf("self.cupsumVersion=%q;self.cupsumFiles=%s;\n", version, list)
	b.add(&file{name: "worker.js", data: append([]byte(head), lean(text)...), first: true})
	return nil
}

// html is a pure view as HTML that browsers read as go-app meant it.
func html(view app.UI) string {
	if view == nil {
		return ""
	}
	return repair(app.HTMLString(view))
}
