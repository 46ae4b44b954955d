//go:build e2e

package e2e

import (
	"os"
	"testing"
)

func TestMain(m *testing.M) {
	status := m.Run()
	for _, dir := range tempDirs {
		os.RemoveAll(dir)
	}
	os.Exit(status)
}
