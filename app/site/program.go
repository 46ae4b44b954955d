package site

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// standIns are what the page's build does without: a standard package, or one
// file of it, and the file in app/overlay that takes its place. What each saved
// is in DEVELOPERS.md.
var standIns = []struct{ pkg, only, file string }{
	{"net/http", "", "net_http.go.txt"},
	{"regexp", "", "regexp.go.txt"},
	{"crypto/aes", "", "crypto_aes.go.txt"},
	{"crypto/cipher", "", "crypto_cipher.go.txt"},
	{"crypto/rand", "", "crypto_rand.go.txt"},
	{"crypto/sha1", "", "crypto_sha1.go.txt"},
	{"crypto/md5", "", "crypto_md5.go.txt"},
	{"database/sql/driver", "", "database_sql_driver.go.txt"},
	{"slices", "zsortanyfunc.go", "slices_zsortanyfunc.go.txt"},
	{"slices", "zsortordered.go", "slices_zsortordered.go.txt"},
}

// program compiles app for the browser and packs it.
func (b *build) program() error {
	temp, err := os.MkdirTemp("", "cupsum-build-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	out := filepath.Join(temp, "app.wasm")
	program := b.Program
	if program == "" {
		program = "./app"
	}
	if err := Wasm(b.root, program, out, "-ldflags=-s -w"); err != nil {
		return err
	}
	if b.wasm, err = os.ReadFile(out); err != nil {
		return err
	}
	small, err := Shrink(b.wasm)
	if err == nil {
		b.wasm = small
	} else if b.Log != nil {
		// A Go that lays its programs out anew: the page works, and is larger.
		fmt.Fprintf(b.Log, "the program could not be shrunk: %v\n", err)
	}
	b.wasmGzip = zip(b.wasm)
	b.add(&file{name: "app.wasm.gz", data: b.wasmGzip, first: true, offline: true, also: [][]byte{b.wasm}})
	// For pages without an origin, which may load scripts and not fetch.
	script := `cupsum.program("` + base64.StdEncoding.EncodeToString(b.wasmGzip) + "\");\n"
	b.add(&file{name: "app.wasm.js", data: []byte(script)})
	return nil
}

// Wasm compiles a program for the browser, with the stand-ins laid over, to the
// file out. root is the module's folder; flags are further ones for go build.
func Wasm(root, program, out string, flags ...string) error {
	overlay := out + ".overlay.json"
	if err := writeOverlay(root, overlay); err != nil {
		return err
	}
	args := append([]string{"build", "-trimpath", "-buildvcs=false", "-overlay", overlay}, flags...)
	cmd := exec.Command("go", append(args, "-o", out, program)...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if text, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("go build for the browser: %w\n%s", err, text)
	}
	return os.Remove(overlay)
}

// writeOverlay writes the file for go build -overlay: each Go file of a
// replaced package is gone, and the stand-in is there.
func writeOverlay(root, name string) error {
	replace := map[string]string{}
	goroot, err := goEnv("GOROOT")
	if err != nil {
		return err
	}
	for _, s := range standIns {
		dir := filepath.Join(goroot, "src", filepath.FromSlash(s.pkg))
		file := filepath.Join(root, "app", "overlay", s.file)
		if s.only != "" {
			if _, err := os.Stat(filepath.Join(dir, s.only)); err != nil {
				return fmt.Errorf("this Go has no %s in %s: look at app/overlay/%s anew", s.only, s.pkg, s.file)
			}
			replace[filepath.Join(dir, s.only)] = file
			continue
		}
		old, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil || len(old) == 0 {
			return fmt.Errorf("no Go files of %s in %s", s.pkg, dir)
		}
		for _, f := range old {
			replace[f] = ""
		}
		replace[filepath.Join(dir, "standin.go")] = file
	}
	text, err := json.MarshalIndent(map[string]any{"Replace": replace}, "", " ")
	if err != nil {
		return err
	}
	return os.WriteFile(name, text, 0o644)
}

func goEnv(name string) (string, error) {
	out, err := exec.Command("go", "env", name).Output()
	if err != nil {
		return "", fmt.Errorf("go env %s: %w", name, err)
	}
	return strings.TrimSpace(string(out)), nil
}
