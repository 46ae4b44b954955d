package site

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// crashing is a program that leans on what Shrink touches: deep stacks that grow
// and are collected, panics recovered and not, runtime.Callers, many types.
const crashing = `package main

import (
	"fmt"
	"os"
	"runtime"
	"strings"
)

type tree struct{ left, right *tree; words []string }

func grow(n int) *tree {
	if n == 0 { return &tree{words: strings.Fields("a b c")} }
	return &tree{grow(n-1), grow(n-1), []string{fmt.Sprint(n)}}
}

func (t *tree) count() int { if t == nil { return 0 }; return t.left.count() + t.right.count() + len(t.words) }

func deep(n int) int { var pad [64]int; if n == 0 { runtime.GC(); return 0 }; pad[n%64] = n; return deep(n-1) + pad[n%64] }

func tripped() (err error) {
	defer func() { err = fmt.Errorf("recovered: %v", recover()) }()
	var none map[string]int
	none["x"] = 1
	return nil
}

func main() {
	fmt.Println(grow(12).count(), deep(5000), tripped())
	done := make(chan int)
	for i := range 50 { go func() { done <- grow(6).count() + i }() }
	sum := 0
	for range 50 { sum += <-done }
	_, file, line, ok := runtime.Caller(0)
	fmt.Fprintln(os.Stderr, file, line, ok)
	fmt.Println(sum)
	panic("the end")
}
`

func TestShrink(t *testing.T) {
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("no Node to run the program in")
	}
	dir := t.TempDir()
	source, plain := filepath.Join(dir, "main.go"), filepath.Join(dir, "plain.wasm")
	if err := os.WriteFile(source, []byte(crashing), 0o644); err != nil {
		t.Fatal(err)
	}
	build := exec.Command("go", "build", "-ldflags=-s -w", "-o", plain, source)
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if text, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	wasm, err := os.ReadFile(plain)
	if err != nil {
		t.Fatal(err)
	}
	small, err := Shrink(wasm)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := len(zip(small)), len(zip(wasm)); a > b*9/10 {
		t.Errorf("%d bytes gzipped, before %d: hardly smaller", a, b)
	}
	shrunk := filepath.Join(dir, "small.wasm")
	if err := os.WriteFile(shrunk, small, 0o644); err != nil {
		t.Fatal(err)
	}
	want, wantErr, wantStatus := runWasm(t, plain)
	got, gotErr, gotStatus := runWasm(t, shrunk)
	if !bytes.Equal(got, want) || gotStatus != wantStatus || wantStatus == 0 {
		t.Errorf("status %d and output\n%s\nbefore %d and\n%s", gotStatus, got, wantStatus, want)
	}
	if !bytes.Contains(wantErr, []byte("main.go")) || !bytes.Contains(gotErr, []byte("? 0 true")) || !bytes.Contains(gotErr, []byte("panic: the end")) {
		t.Errorf("on the error stream:\n%s\nbefore:\n%s", gotErr, wantErr)
	}
}

func runWasm(t *testing.T, name string) (out, errs []byte, status int) {
	t.Helper()
	goroot, err := goEnv("GOROOT")
	if err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	cmd := exec.Command(filepath.Join(goroot, "lib", "wasm", "go_js_wasm_exec"), name)
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	cmd.Run() // the status is what is asked for
	return stdout.Bytes(), stderr.Bytes(), cmd.ProcessState.ExitCode()
}

func TestShrinkRefuses(t *testing.T) {
	for _, wasm := range [][]byte{nil, []byte("\x00asm\x01\x00\x00\x00"), []byte("\x00asm\x01\x00\x00\x00\x0b\xff"), []byte("\x00asm\x01\x00\x00\x00\x0b\x05\x01\x00\x41\x00\x0b")} {
		if out, err := Shrink(wasm); err == nil {
			t.Errorf("took %q for a program: %q", wasm, out)
		}
	}
}

func TestDataSectionRoundTrip(t *testing.T) {
	memory := make([]byte, 100_000)
	for i := range 50 {
		copy(memory[i*i*31:], fmt.Sprint("piece ", i))
	}
	memory[len(memory)-1] = 1
	got, err := loadData(storeData(memory))
	if err != nil || !bytes.Equal(got, memory) {
		t.Errorf("not the same memory, error %v", err)
	}
}
