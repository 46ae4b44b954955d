//go:build e2e

package e2e

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
)

// helloUsual and helloApart are stock go-app hello pages: made the usual way,
// and with the browser's program compiled apart from the server's.
var (
	helloUsual = sync.OnceValues(func() (string, error) { return buildHello("./hello/usual") })
	helloApart = sync.OnceValues(func() (string, error) { return buildHello("./hello/apart") })
)

func buildHello(program string) (string, error) {
	dir, err := os.MkdirTemp("", "cupsum-hello-")
	if err != nil {
		return "", err
	}
	tempDirs = append(tempDirs, dir)
	if text, err := exec.Command("go", "run", "./hello/usual", dir).CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w\n%s", err, text)
	}
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", filepath.Join(dir, "web", "app.wasm"), program)
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if text, err := build.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w\n%s", err, text)
	}
	// Two small icons, so that go-app's worker finds all that it caches.
	for _, name := range []string{"icon.png", "icon.svg"} {
		if err := os.WriteFile(filepath.Join(dir, "web", name), []byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`), 0o644); err != nil {
			return "", err
		}
	}
	return dir, nil
}
