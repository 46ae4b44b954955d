//go:build e2e

package e2e

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"sync"
	"syscall"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/pwa"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// chromium is a Browser over the DevTools protocol.
type chromium struct {
	ctx  context.Context
	stop []context.CancelFunc
	cmd  *exec.Cmd // the browser's own process, to be killed in tests
}

func startChromium(profile string) (Browser, error) {
	b := &chromium{}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.ExecPath("chromium"),
		chromedp.UserDataDir(profile), chromedp.ModifyCmdFunc(func(cmd *exec.Cmd) {
			b.cmd = cmd
			cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // so that all of it can be killed
		}))
	actx, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, stop2 := chromedp.NewContext(actx)
	b.ctx, b.stop = ctx, []context.CancelFunc{stop2, stop}
	if err := chromedp.Do(ctx); err != nil {
		b.Close()
		return nil, err
	}
	return b, nil
}

func (b *chromium) Close() {
	for _, stop := range b.stop {
		stop()
	}
}

// install makes an app of the page at url, as the browser's own menu does.
func (b *chromium) install(url string) error {
	_, err := chromedp.CallBrowser(b.ctx, pwa.Install, pwa.InstallParams{ManifestID: url, InstallURLOrBundleURL: url})
	if err != nil {
		return err
	}
	_, err = chromedp.CallBrowser(b.ctx, pwa.ChangeAppUserSettings, pwa.ChangeAppUserSettingsParams{ManifestID: url, DisplayMode: pwa.DisplayModeStandalone})
	return err
}

// launch starts an installed app and returns its page.
func (b *chromium) launch(url string) (Page, error) {
	if _, err := chromedp.CallBrowser(b.ctx, pwa.Launch, pwa.LaunchParams{ManifestID: url}); err != nil {
		return nil, err
	}
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		all, err := chromedp.CallBrowser(b.ctx, target.GetTargets, target.GetTargetsParams{})
		if err != nil {
			return nil, err
		}
		for _, it := range all.TargetInfos {
			if it.Type == "page" && it.URL == url && !it.Attached {
				return b.watch(chromedp.WithTargetID(it.TargetID))
			}
		}
	}
	return nil, errors.New("no app of " + url)
}

type chromiumPage struct {
	ctx      context.Context
	stop     context.CancelFunc
	mu       sync.Mutex
	problems []string
	asked    []string // every address that the page and its frames asked for
}

func (b *chromium) NewPage() (Page, error) { return b.watch() }

// watch attaches to a tab: a new one, or the one in the options.
func (b *chromium) watch(options ...chromedp.ContextOption) (Page, error) {
	ctx, stop := chromedp.NewContext(b.ctx, options...)
	p := &chromiumPage{ctx: ctx, stop: stop}
	if err := chromedp.Listen(ctx, p.hear); err != nil {
		return nil, err
	}
	err := p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		if _, err := chromedp.Call(ctx, log.Enable, cdp.Empty{}); err != nil {
			return err
		}
		if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
			return err
		}
		_, err := chromedp.Call(ctx, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: watchPolicy})
		return err
	}))
	return p, err
}

// watchPolicy makes violations of the content security policy errors on the
// console, in every browser.
const watchPolicy = `addEventListener("securitypolicyviolation", (e) => console.error("CSP: " + e.violatedDirective + " blocks " + e.blockedURI + " " + e.sample));`

func (p *chromiumPage) hear(ev any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch ev := ev.(type) {
	case *runtime.EventConsoleAPICalled:
		if ev.Type == runtime.ConsoleAPICalledTypeError {
			var words []string
			for _, a := range ev.Args {
				words = append(words, strings.Trim(string(a.Value), `"`)+a.Description)
			}
			p.problems = append(p.problems, strings.Join(words, " "))
		}
	case *runtime.EventExceptionThrown:
		text := ev.ExceptionDetails.Text
		if ev.ExceptionDetails.Exception != nil {
			text += " " + ev.ExceptionDetails.Exception.Description
		}
		p.problems = append(p.problems, text)
	case *network.EventRequestWillBeSent:
		p.asked = append(p.asked, ev.Request.URL)
	case *log.EventEntryAdded:
		if ev.Entry.Level == log.EntryLevelError {
			p.problems = append(p.problems, ev.Entry.Text+" "+ev.Entry.URL)
		}
	}
}

func (p *chromiumPage) do(steps ...chromedp.Action[chromedp.Void]) error {
	ctx, stop := context.WithTimeout(p.ctx, 60*time.Second)
	defer stop()
	return chromedp.Do(ctx, steps...)
}

func (p *chromiumPage) Open(url string) error { return p.do(chromedp.Navigate(url)) }

func (p *chromiumPage) Eval(expression string, out any) error {
	ctx, stop := context.WithTimeout(p.ctx, 60*time.Second)
	defer stop()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](asJSON(expression), chromedp.EvalAwaitPromise))
	if err != nil {
		return err
	}
	return fromJSON(text, out)
}

func (p *chromiumPage) Click(css string) error {
	x, y, err := centre(p, css)
	if err != nil {
		return err
	}
	return p.do(chromedp.MouseClickXY(x, y))
}

func (p *chromiumPage) Type(css, text string) error {
	if err := focused(p, css); err != nil {
		return err
	}
	return p.do(chromedp.KeyEvent(text))
}

var chromiumKeys = map[string]string{
	"Tab": kb.Tab, "Enter": kb.Enter, "Escape": kb.Escape, "Backspace": kb.Backspace, "Delete": kb.Delete,
	"ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown, "ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight,
	"Home": kb.Home, "End": kb.End, "Space": " ",
}

func (p *chromiumPage) Press(keys ...string) error {
	for _, key := range keys {
		var options []chromedp.KeyOption
		name, shift := strings.CutPrefix(key, "Shift+")
		if shift {
			options = append(options, chromedp.KeyModifiers(kb.ModifierShift))
		}
		name, ctrl := strings.CutPrefix(name, "Control+")
		if ctrl {
			options = append(options, chromedp.KeyModifiers(kb.ModifierCtrl))
		}
		text := chromiumKeys[name]
		if text == "" {
			if len([]rune(name)) != 1 {
				return fmt.Errorf("no key %q", key)
			}
			text = name
		}
		if err := p.do(chromedp.KeyEvent(text, options...)); err != nil {
			return err
		}
	}
	return nil
}

func (p *chromiumPage) Resize(width, height int) error {
	return p.do(chromedp.EmulateViewport(int64(width), int64(height)))
}

func (p *chromiumPage) Screenshot() ([]byte, error) {
	ctx, stop := context.WithTimeout(p.ctx, 60*time.Second)
	defer stop()
	return chromedp.Run(ctx, chromedp.CaptureScreenshot())
}

func (p *chromiumPage) Problems() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	out := p.problems
	p.problems = nil
	return out
}

func (p *chromiumPage) Close() error {
	p.stop()
	return nil
}

// quota sets how many bytes an origin may store; 0 lifts the limit.
func (p *chromiumPage) quota(origin string, bytes float64) error {
	return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		params := storage.OverrideQuotaForOriginParams{Origin: origin}
		if bytes > 0 {
			params.QuotaSize = &bytes
		}
		_, err := chromedp.Call(ctx, storage.OverrideQuotaForOrigin, params)
		return err
	}))
}

// kill ends a browser and all its processes at once, as a dead battery would.
func (b *chromium) kill() {
	syscall.Kill(-b.cmd.Process.Pid, syscall.SIGKILL)
	b.cmd.Process.Kill()
	b.Close()
}
