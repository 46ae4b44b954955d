package site

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// types are the content types that matter, whatever the machine's own table
// says.
var types = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".gz":          "application/octet-stream", // unpacked by the page itself
	".wasm":        "application/wasm",
	".webmanifest": "application/manifest+json",
}

// Handler serves the files of dir as a good static host does: right types,
// gzip for what it helps, validators so that nothing unchanged is sent again.
func Handler(dir string) http.Handler {
	return &handler{dir: dir, packed: map[string][]byte{}}
}

type handler struct {
	dir    string
	mu     sync.Mutex
	packed map[string][]byte // gzipped files by name and time of change
}

func (h *handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		http.Error(w, "only GET", http.StatusMethodNotAllowed)
		return
	}
	name := path.Clean("/" + r.URL.Path)
	if strings.HasSuffix(r.URL.Path, "/") {
		name = path.Join(name, "index.html")
	}
	full := filepath.Join(h.dir, filepath.FromSlash(name))
	info, err := os.Stat(full)
	if err != nil || info.IsDir() {
		http.NotFound(w, r)
		return
	}
	data, err := os.ReadFile(full)
	if err != nil {
		http.Error(w, "this file can't be read", http.StatusInternalServerError)
		return
	}
	ext := path.Ext(name)
	head := w.Header()
	if t := types[ext]; t != "" {
		head.Set("Content-Type", t)
	}
	head.Set("Cache-Control", "no-cache")
	head.Set("X-Content-Type-Options", "nosniff")
	head.Set("ETag", `"`+mark(data)+`"`)
	if packs(ext) && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		data = h.pack(full+info.ModTime().String(), data)
		head.Set("Content-Encoding", "gzip")
		head.Set("ETag", `"`+mark(data)+`"`)
		head.Add("Vary", "Accept-Encoding")
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

func packs(ext string) bool { return ext != ".gz" && ext != ".png" }

func (h *handler) pack(key string, data []byte) []byte {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.packed[key] == nil {
		h.packed[key] = zip(data)
	}
	return h.packed[key]
}

// Serve serves dir on loopback until the context ends, and prints the address.
// Port 0 takes any free one.
func Serve(until context.Context, dir string, port int, out io.Writer) error {
	l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "Cupsum is at http://%s/ (Ctrl+C ends it)\n", l.Addr())
	server := &http.Server{Handler: Handler(dir), ReadHeaderTimeout: 10 * time.Second}
	context.AfterFunc(until, func() { server.Close() })
	if err := server.Serve(l); err != http.ErrServerClosed {
		return err
	}
	return nil
}
