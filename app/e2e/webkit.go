//go:build e2e

package e2e

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"syscall"
	"time"
)

// webkit is a Browser over WebDriver: WebKitGTK's own driver and its small test
// browser, on a screen of Xvfb's.
type webkit struct {
	screen, driver *exec.Cmd
	session        string     // address of the session
	mu             sync.Mutex // a session has one current tab
	current, first string     // tabs; the first stays open, so that there is one
}

func startWebKit(profile string) (Browser, error) {
	small, _ := filepath.Glob("/usr/lib/*/webkit2gtk-4.*/MiniBrowser")
	if len(small) == 0 {
		return nil, errors.New("no MiniBrowser")
	}
	b := &webkit{}
	display, err := b.startScreen()
	if err != nil {
		return nil, err
	}
	l, err := net.Listen("tcp", "127.0.0.1:0") // to find a free port
	if err != nil {
		return nil, err
	}
	port := l.Addr().(*net.TCPAddr).Port
	l.Close()
	b.driver = exec.Command("WebKitWebDriver", fmt.Sprintf("--port=%d", port))
	b.driver.Env = append(os.Environ(), "DISPLAY="+display, "HOME="+profile, "XDG_RUNTIME_DIR="+profile,
		"WEBKIT_DISABLE_COMPOSITING_MODE=1", "LIBGL_ALWAYS_SOFTWARE=1", "NO_AT_BRIDGE=1")
	b.driver.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	if err := b.driver.Start(); err != nil {
		b.Close()
		return nil, err
	}
	base := fmt.Sprintf("http://127.0.0.1:%d/session", port)
	var made struct {
		SessionID    string `json:"sessionId"`
		Capabilities map[string]any
	}
	for end := time.Now().Add(30 * time.Second); ; time.Sleep(100 * time.Millisecond) {
		err = webdriver("POST", base, map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
			"webkitgtk:browserOptions": map[string]any{"binary": small[0], "args": []string{"--automation"}},
			"timeouts":                 map[string]any{"script": 20000},
		}}}, &made)
		if err == nil || time.Now().After(end) {
			break
		}
	}
	if err != nil {
		b.Close()
		return nil, err
	}
	b.session = base + "/" + made.SessionID
	if err := webdriver("GET", b.session+"/window", nil, &b.first); err != nil {
		b.Close()
		return nil, err
	}
	return b, nil
}

// startScreen starts a screen without a monitor and returns its name, which the
// server picks.
func (b *webkit) startScreen() (string, error) {
	r, w, err := os.Pipe()
	if err != nil {
		return "", err
	}
	defer r.Close()
	b.screen = exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1400x1200x24", "-nolisten", "tcp")
	b.screen.ExtraFiles = []*os.File{w}
	err = b.screen.Start()
	w.Close()
	if err != nil {
		return "", err
	}
	var n int
	if _, err := fmt.Fscan(r, &n); err != nil {
		return "", err
	}
	return fmt.Sprint(":", n), nil
}

func (b *webkit) Close() {
	if b.session != "" {
		webdriver("DELETE", b.session, nil, nil)
	}
	if b.driver != nil && b.driver.Process != nil {
		syscall.Kill(-b.driver.Process.Pid, syscall.SIGKILL)
		b.driver.Wait()
	}
	if b.screen != nil && b.screen.Process != nil {
		b.screen.Process.Kill()
		b.screen.Wait()
	}
}

var webdriverClient = &http.Client{Timeout: 90 * time.Second}

// webdriver sends one command and decodes the answer's value.
func webdriver(method, url string, params, out any) error {
	var body io.Reader
	if method == "POST" {
		if params == nil {
			params = map[string]any{}
		}
		text, err := json.Marshal(params)
		if err != nil {
			return err
		}
		body = bytes.NewReader(text)
	}
	request, err := http.NewRequest(method, url, body)
	if err != nil {
		return err
	}
	response, err := webdriverClient.Do(request)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	var answer struct{ Value json.RawMessage }
	if err := json.NewDecoder(response.Body).Decode(&answer); err != nil {
		return err
	}
	if response.StatusCode != http.StatusOK {
		return fmt.Errorf("webdriver: %.300s", answer.Value)
	}
	if out == nil {
		return nil
	}
	return json.Unmarshal(answer.Value, out)
}

type webkitPage struct {
	b      *webkit
	handle string
}

func (b *webkit) NewPage() (Page, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	var made struct{ Handle string }
	// A window each: a tab behind another is hidden and draws nothing.
	if err := webdriver("POST", b.session+"/window/new", map[string]any{"type": "window"}, &made); err != nil {
		return nil, err
	}
	return &webkitPage{b, made.Handle}, nil
}

// call makes the page the current one and sends a command to it.
func (p *webkitPage) call(method, path string, params, out any) error {
	p.b.mu.Lock()
	defer p.b.mu.Unlock()
	if p.b.current != p.handle {
		if err := webdriver("POST", p.b.session+"/window", map[string]any{"handle": p.handle}, nil); err != nil {
			return err
		}
		p.b.current = p.handle
	}
	return webdriver(method, p.b.session+path, params, out)
}

func (p *webkitPage) Open(url string) error {
	return p.call("POST", "/url", map[string]any{"url": url}, nil)
}

func (p *webkitPage) Eval(expression string, out any) error {
	var text string
	err := p.call("POST", "/execute/async", map[string]any{
		"script": `const done = arguments[0]; ` + asJSON(expression) + `.then(done, (err) => done("!" + err));`,
		"args":   []any{},
	}, &text)
	if err == nil && len(text) > 0 && text[0] == '!' {
		err = errors.New(text[1:])
	}
	if err != nil {
		return err
	}
	return fromJSON(text, out)
}

func (p *webkitPage) perform(actions ...any) error {
	return p.call("POST", "/actions", map[string]any{"actions": actions}, nil)
}

// Click lets the driver click the element: its pointer actions may never end.
func (p *webkitPage) Click(css string) error {
	var found map[string]string
	if err := p.call("POST", "/element", map[string]any{"using": "css selector", "value": css}, &found); err != nil {
		return err
	}
	for _, id := range found { // one pair: the name is the protocol's
		return p.call("POST", "/element/"+id+"/click", nil, nil)
	}
	return fmt.Errorf("no element %s", css)
}

func (p *webkitPage) Type(css, text string) error {
	if err := focused(p, css); err != nil {
		return err
	}
	return p.perform(textActions(text))
}

func (p *webkitPage) Press(keys ...string) error {
	for _, key := range keys {
		actions, err := keyActions(key)
		if err != nil {
			return err
		}
		if err := p.perform(actions); err != nil {
			return err
		}
	}
	return nil
}

// Resize gives the window such a size that its content has the wanted one.
func (p *webkitPage) Resize(width, height int) error {
	for range 3 {
		var window struct{ Width, Height int }
		if err := p.call("GET", "/window/rect", nil, &window); err != nil {
			return err
		}
		var inner [2]int
		if err := p.Eval(`[innerWidth, innerHeight]`, &inner); err != nil {
			return err
		}
		if inner == [2]int{width, height} {
			return nil
		}
		err := p.call("POST", "/window/rect", map[string]any{"width": window.Width + width - inner[0], "height": window.Height + height - inner[1]}, nil)
		if err != nil {
			return err
		}
		time.Sleep(200 * time.Millisecond)
	}
	return nil
}

func (p *webkitPage) Screenshot() ([]byte, error) {
	var text string
	if err := p.call("GET", "/screenshot", nil, &text); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(text)
}

func (p *webkitPage) Problems() []string { return nil }

func (p *webkitPage) Close() error {
	if err := p.call("DELETE", "/window", nil, nil); err != nil {
		return err
	}
	p.b.mu.Lock()
	defer p.b.mu.Unlock()
	p.b.current = p.b.first
	return webdriver("POST", p.b.session+"/window", map[string]any{"handle": p.b.first}, nil)
}
