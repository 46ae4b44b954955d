//go:build e2e

package e2e

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sync"
	"syscall"
	"time"
)

// firefox is a Browser over WebDriver BiDi, which Firefox speaks itself.
type firefox struct {
	cmd  *exec.Cmd
	sock *socket

	mu      sync.Mutex
	last    int
	waiting map[int]chan bidiMessage
	pages   map[string]*firefoxPage // by browsing context
}

type bidiMessage struct {
	Type    string // "success", "error", "event"
	ID      int
	Result  json.RawMessage
	Error   string
	Message string
	Method  string
	Params  json.RawMessage
}

// firefoxPrefs keep the browser quiet: no first-run pages, no talk to its maker.
const firefoxPrefs = `user_pref("app.update.enabled", false);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.startup.page", 0);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("toolkit.telemetry.enabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("services.settings.server", "data:,none");
user_pref("browser.sessionstore.resume_from_crash", false);
user_pref("toolkit.startup.max_resumed_crashes", -1);
user_pref("remote.prefs.recommended", true);
`

var bidiAddress = regexp.MustCompile(`WebDriver BiDi listening on ws://([^/\s]+)`)

func startFirefox(profile string) (Browser, error) {
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(firefoxPrefs), 0o644); err != nil {
		return nil, err
	}
	cmd := exec.Command("firefox-esr", "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0", "about:blank")
	cmd.Env = append(os.Environ(), "MOZ_HEADLESS=1", "HOME="+profile)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	errs, err := cmd.StderrPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	found := make(chan string, 1)
	go func() {
		for lines := bufio.NewScanner(errs); lines.Scan(); {
			if m := bidiAddress.FindStringSubmatch(lines.Text()); m != nil {
				found <- m[1]
			}
		}
	}()
	b := &firefox{cmd: cmd, waiting: map[int]chan bidiMessage{}, pages: map[string]*firefoxPage{}}
	select {
	case host := <-found:
		b.sock, err = dial(host, "/session")
	case <-time.After(60 * time.Second):
		err = errors.New("no address from Firefox")
	}
	if err == nil {
		go b.listen()
		err = b.call("session.new", map[string]any{"capabilities": map[string]any{}}, nil)
	}
	if err == nil {
		err = b.call("session.subscribe", map[string]any{"events": []string{"log.entryAdded"}}, nil)
	}
	if err == nil {
		err = b.call("script.addPreloadScript", map[string]any{"functionDeclaration": "() => {" + watchPolicy + "}"}, nil)
	}
	if err != nil {
		b.Close()
		return nil, err
	}
	return b, nil
}

func (b *firefox) Close() {
	if b.sock != nil {
		b.sock.conn.Close()
	}
	b.cmd.Process.Kill()
	b.cmd.Wait()
}

// kill: see chromium's.
func (b *firefox) kill() {
	syscall.Kill(-b.cmd.Process.Pid, syscall.SIGKILL)
	b.Close()
}

func (b *firefox) listen() {
	for {
		text, err := b.sock.receive()
		if err != nil {
			b.mu.Lock()
			for _, w := range b.waiting {
				close(w)
			}
			b.waiting = nil
			b.mu.Unlock()
			return
		}
		var m bidiMessage
		if json.Unmarshal(text, &m) != nil {
			continue
		}
		b.mu.Lock()
		if m.Type == "event" {
			b.heard(m)
		} else if w := b.waiting[m.ID]; w != nil {
			delete(b.waiting, m.ID)
			w <- m
		}
		b.mu.Unlock()
	}
}

// heard takes an event. b.mu is held.
func (b *firefox) heard(m bidiMessage) {
	var entry struct {
		Level, Text string
		Source      struct{ Context string }
	}
	if m.Method != "log.entryAdded" || json.Unmarshal(m.Params, &entry) != nil || entry.Level != "error" {
		return
	}
	if p := b.pages[entry.Source.Context]; p != nil {
		p.problems = append(p.problems, entry.Text)
	}
}

func (b *firefox) call(method string, params, out any) error {
	b.mu.Lock()
	if b.waiting == nil {
		b.mu.Unlock()
		return errors.New("the connection to Firefox is gone")
	}
	b.last++
	id, answer := b.last, make(chan bidiMessage, 1)
	b.waiting[id] = answer
	b.mu.Unlock()
	text, err := json.Marshal(map[string]any{"id": id, "method": method, "params": params})
	if err != nil {
		return err
	}
	if err := b.sock.send(opText, text); err != nil {
		return err
	}
	select {
	case m, ok := <-answer:
		switch {
		case !ok:
			return errors.New("the connection to Firefox is gone")
		case m.Type == "error":
			return fmt.Errorf("%s: %s: %s", method, m.Error, m.Message)
		case out != nil:
			return json.Unmarshal(m.Result, out)
		}
		return nil
	case <-time.After(60 * time.Second):
		return fmt.Errorf("%s: no answer", method)
	}
}

type firefoxPage struct {
	b        *firefox
	context  string
	problems []string
}

func (b *firefox) NewPage() (Page, error) {
	var made struct{ Context string }
	if err := b.call("browsingContext.create", map[string]any{"type": "tab"}, &made); err != nil {
		return nil, err
	}
	p := &firefoxPage{b: b, context: made.Context}
	b.mu.Lock()
	b.pages[p.context] = p
	b.mu.Unlock()
	return p, nil
}

func (p *firefoxPage) Open(url string) error {
	// "interactive": a script that waits for the network may hold up the rest.
	return p.b.call("browsingContext.navigate", map[string]any{"context": p.context, "url": url, "wait": "interactive"}, nil)
}

func (p *firefoxPage) Eval(expression string, out any) error {
	var got struct {
		Type             string
		Result           struct{ Value string }
		ExceptionDetails struct{ Text string }
	}
	err := p.b.call("script.evaluate", map[string]any{
		"expression": asJSON(expression), "awaitPromise": true, "userActivation": true,
		"target": map[string]any{"context": p.context},
	}, &got)
	if err == nil && got.Type == "exception" {
		err = errors.New(got.ExceptionDetails.Text)
	}
	if err != nil {
		return err
	}
	return fromJSON(got.Result.Value, out)
}

func (p *firefoxPage) perform(actions ...any) error {
	return p.b.call("input.performActions", map[string]any{"context": p.context, "actions": actions}, nil)
}

func (p *firefoxPage) Click(css string) error {
	x, y, err := centre(p, css)
	if err != nil {
		return err
	}
	return p.perform(clickActions(x, y))
}

func (p *firefoxPage) Type(css, text string) error {
	if err := focused(p, css); err != nil {
		return err
	}
	return p.perform(textActions(text))
}

func (p *firefoxPage) Press(keys ...string) error {
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

func (p *firefoxPage) Resize(width, height int) error {
	return p.b.call("browsingContext.setViewport", map[string]any{
		"context": p.context, "viewport": map[string]any{"width": width, "height": height},
	}, nil)
}

func (p *firefoxPage) Screenshot() ([]byte, error) {
	var got struct{ Data string }
	if err := p.b.call("browsingContext.captureScreenshot", map[string]any{"context": p.context}, &got); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(got.Data)
}

func (p *firefoxPage) Problems() []string {
	p.b.mu.Lock()
	defer p.b.mu.Unlock()
	out := p.problems
	p.problems = nil
	return out
}

func (p *firefoxPage) Close() error {
	return p.b.call("browsingContext.close", map[string]any{"context": p.context}, nil)
}
