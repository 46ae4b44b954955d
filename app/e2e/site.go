//go:build e2e

package e2e

import (
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"cupsum/app/lang"
	"cupsum/app/site"
)

// built are folders with finished sites, made at most once a run.
var (
	realSite  = sync.OnceValues(buildReal)
	probeSite = sync.OnceValues(func() (string, error) { return buildSite(site.Options{Program: probe, Static: probeStatic()}) })
	// the same page as probeSite, with other words in it: the next version
	probeNext = sync.OnceValues(func() (string, error) {
		return buildSite(site.Options{Program: probe, Static: app.Div().Body(app.P().Text("second version"), probeStatic())})
	})
	tempDirs []string
)

// buildReal builds the site as anybody does.
func buildReal() (string, error) {
	dir, err := os.MkdirTemp("", "cupsum-site-")
	if err != nil {
		return "", err
	}
	tempDirs = append(tempDirs, dir)
	if text, err := exec.Command("go", "run", "..", "build", "-out", dir).CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w\n%s", err, text)
	}
	return dir, nil
}

const probe = "./app/e2e/probe"

func buildSite(o site.Options) (string, error) {
	dir, err := os.MkdirTemp("", "cupsum-site-")
	if err != nil {
		return "", err
	}
	tempDirs = append(tempDirs, dir)
	o.Dir, o.Words = dir, lang.English()
	return dir, site.Build(o)
}

func probeStatic() app.UI {
	return app.Main().Class("sheet").Body(
		app.Label().For("food").Text("Food"),
		app.Input().ID("food"),
		app.P().ID("worked").Text("1/4 cup of raisins counts as 1/2 cup of fruit."),
		app.Div().Class("tall"),
	)
}

// server serves folders under /proj/ on loopback, and can go away and come back
// at the same address.
type server struct {
	t    testing.TB
	addr string
	url  string // of the site's home, with the slash
	http *http.Server

	mu    sync.Mutex
	sites map[string]http.Handler                                  // by first element of the path
	tweak func(w http.ResponseWriter, r *http.Request) (done bool) // before each answer
	asked []string                                                 // paths, with the query
	told  chan int                                                 // numbers posted to .../confirmed
}

// serve starts a server with the site made by build at /proj/.
func serve(t testing.TB, build func() (string, error)) *server {
	t.Helper()
	dir, err := build()
	if err != nil {
		t.Fatal(err)
	}
	s := &server{t: t, addr: "127.0.0.1:0", sites: map[string]http.Handler{}}
	s.mount("proj", dir)
	s.start()
	t.Cleanup(s.stop)
	return s
}

// mount puts a folder's site under /name/, or at the root when name is "".
func (s *server) mount(name, dir string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.sites[name] = site.Handler(dir)
	if name != "" {
		s.sites[name] = http.StripPrefix("/"+name, s.sites[name])
	}
}

// at serves the site made by build under another folder and returns its address.
func (s *server) at(name string, build func() (string, error)) string {
	dir, err := build()
	if err != nil {
		s.t.Fatal(err)
	}
	s.mount(name, dir)
	return "http://" + s.addr + "/" + name + "/"
}

func (s *server) start() {
	l, err := net.Listen("tcp", s.addr)
	if err != nil {
		s.t.Fatal(err)
	}
	s.addr = l.Addr().String()
	s.url = "http://" + s.addr + "/proj/"
	s.http = &http.Server{Handler: s}
	go s.http.Serve(l)
}

// stop is flight mode: connections break and new ones are refused.
func (s *server) stop() { s.http.Close() }

func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	s.asked = append(s.asked, r.URL.RequestURI())
	tweak := s.tweak
	name, _, _ := strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
	h := s.sites[name]
	if h == nil {
		h = s.sites[""]
	}
	if strings.HasSuffix(r.URL.Path, "/confirmed") && s.told != nil {
		if n, err := strconv.Atoi(r.URL.RawQuery); err == nil {
			s.told <- n
		}
	}
	s.mu.Unlock()
	if tweak != nil && tweak(w, r) {
		return
	}
	if h == nil {
		http.NotFound(w, r)
		return
	}
	h.ServeHTTP(w, r)
}

// with sets what happens before each answer; nil: nothing.
func (s *server) with(tweak func(w http.ResponseWriter, r *http.Request) bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.tweak = tweak
}

// hear sends the numbers that a page posts to "confirmed" to a channel with
// room for all of them; nil: to nobody.
func (s *server) hear(told chan int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.told = told
}

// requests returns the paths asked for since the last call.
func (s *server) requests() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := s.asked
	s.asked = nil
	return out
}

// hostPage puts an HTML file at /host/NAME on this server.
func (s *server) hostPage(name, html string) string {
	dir := s.t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, name), []byte(html), 0o644); err != nil {
		s.t.Fatal(err)
	}
	s.mount("host", dir)
	return fmt.Sprintf("http://%s/host/%s", s.addr, name)
}
