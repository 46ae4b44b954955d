//go:build e2e

package e2e

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"cupsum/core/day"
)

// The slow phone: 1.6 Mbit/s with 150 ms, and a quarter of this machine's speed.
const (
	slowBandwidth = 1.6e6 / 8 // bytes a second
	slowLatency   = 150       // ms
	slowCPU       = 4
)

// slow makes the page's line and processor slow. line says whether the line too.
func (p *chromiumPage) slow(line bool) error {
	return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		if line {
			_, err := chromedp.Call(ctx, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
				MatchedNetworkConditions: []*network.Conditions{{Latency: slowLatency, DownloadThroughput: slowBandwidth, UploadThroughput: slowBandwidth}},
			})
			if err != nil {
				return err
			}
		}
		_, err := chromedp.Call(ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slowCPU})
		return err
	}))
}

// counted counts the bytes of bodies that a server sends.
type counted struct {
	http.ResponseWriter
	n *atomic.Int64
}

func (c counted) Write(b []byte) (int, error) {
	c.n.Add(int64(len(b)))
	return c.ResponseWriter.Write(b)
}

// firstVisit visits a site with a fresh browser and returns the bytes of all
// bodies, the worker's included.
func firstVisit(tb testing.TB, build func() (string, error), done string) int64 {
	tb.Helper()
	dir, err := build()
	if err != nil {
		tb.Fatal(err)
	}
	b, s := benchBrowser(tb), &server{t: tb, addr: "127.0.0.1:0", sites: map[string]http.Handler{}}
	s.mount("", dir)
	s.start()
	defer s.stop()
	var n atomic.Int64
	s.with(func(w http.ResponseWriter, r *http.Request) bool {
		s.sites[""].ServeHTTP(counted{w, &n}, r)
		return true
	})
	p := page(tb, b, "http://"+s.addr+"/")
	wait(tb, p, done)
	wait(tb, p, `navigator.serviceWorker.getRegistration().then((r) => r?.active?.state === "activated")`)
	time.Sleep(500 * time.Millisecond) // what the stock worker still fetches
	return n.Load()
}

func benchBrowser(tb testing.TB) *chromium { return engines[0].open(tb).(*chromium) }

const (
	helloDone = `document.getElementById("hello") && !document.getElementById("app-wasm-loader")` // it prerenders
	ourDone   = `document.documentElement.dataset.ready`
)

// BenchmarkFirstVisit prints what a first visit transfers, ours and a hello
// page's, all from the same server with gzip.
func BenchmarkFirstVisit(b *testing.B) {
	ours := firstVisit(b, realSite, ourDone)
	apart := firstVisit(b, helloApart, helloDone)
	usual := firstVisit(b, helloUsual, helloDone)
	b.ReportMetric(float64(ours), "bytes")
	b.ReportMetric(float64(apart), "hello-apart-bytes")
	b.ReportMetric(float64(usual), "hello-usual-bytes")
	limit(b, "first visit / hello page with its doors apart", float64(ours)/float64(apart), 0.9)
	limit(b, "first visit / hello page made the usual way", float64(ours)/float64(usual), 0.5)
}

// limit prints a figure beside what it may be, and fails where it is more.
func limit(tb testing.TB, what string, got, most float64) {
	tb.Helper()
	fmt.Printf("    %-58s %8.2f, at most %.2f\n", what, got, most)
	if got > most {
		tb.Errorf("%s is %.2f, more than %.2f", what, got, most)
	}
}

// BenchmarkSlowLine prints when a first visit on a slow phone shows something,
// and when the program is ready; and a hello page's the same.
func BenchmarkSlowLine(b *testing.B) {
	content, ready, sent := slowVisit(b, realSite, ourDone)
	_, hello, _ := slowVisit(b, helloApart, helloDone)
	b.ReportMetric(content, "first-content-s")
	b.ReportMetric(ready, "ready-s")
	b.ReportMetric(hello, "hello-apart-ready-s")
	limit(b, "slow line: first content, s", content, 1.0)
	limit(b, fmt.Sprintf("slow line: ready, s (%.2f MB; hello page %.1f)", sent/1e6, hello), ready, 1.15*sent/slowBandwidth+1.5)
}

func slowVisit(tb testing.TB, build func() (string, error), done string) (content, ready, sent float64) {
	tb.Helper()
	dir, err := build()
	if err != nil {
		tb.Fatal(err)
	}
	s := &server{t: tb, addr: "127.0.0.1:0", sites: map[string]http.Handler{}}
	s.mount("", dir)
	s.start()
	defer s.stop()
	p := page(tb, benchBrowser(tb), "about:blank").(*chromiumPage)
	if err := p.slow(true); err != nil {
		tb.Fatal(err)
	}
	start := time.Now()
	open(tb, p, "http://"+s.addr+"/")
	wait(tb, p, done)
	ready = time.Since(start).Seconds()
	if done == ourDone {
		ready = eval[float64](tb, p, `Number(document.documentElement.dataset.ready)`) / 1000
	}
	content = eval[float64](tb, p, `performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? -1`) / 1000
	sent = eval[float64](tb, p, `[...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")].reduce((n, r) => n + r.transferSize, 0)`)
	return content, ready, sent
}

// BenchmarkSecondVisit prints when the program is ready in flight mode.
func BenchmarkSecondVisit(b *testing.B) {
	s := serve(b, realSite)
	p := page(b, benchBrowser(b), s.url).(*chromiumPage)
	ready(b, p)
	kept(b, p)
	s.stop()
	if err := p.slow(false); err != nil {
		b.Fatal(err)
	}
	var times []float64
	for range 5 {
		open(b, p, "about:blank")
		open(b, p, s.url)
		ready(b, p)
		times = append(times, eval[float64](b, p, `Number(document.documentElement.dataset.ready)`)/1000)
	}
	slices.Sort(times)
	b.ReportMetric(times[2], "offline-ready-s")
	limit(b, "second visit, offline: ready, s (middle of 5)", times[2], 1.5)
}

// fullDay opens a page with a day of n portions, through the page's own way to
// open a file.
func fullDay(tb testing.TB, p Page, n int) {
	tb.Helper()
	demo := day.Demo()
	sheet := day.Sheet{Set: demo.Set, Title: "benchmark"}
	for i := range n {
		portion := demo.Portions[i%len(demo.Portions)]
		portion.ID = fmt.Sprint("bench", i)
		sheet.Portions = append(sheet.Portions, portion)
	}
	text, err := json.Marshal(string(sheet.Write()))
	if err != nil {
		tb.Fatal(err)
	}
	if err := p.Eval(`void [...document.querySelectorAll('button[data-do="open"]')].at(-1).click()`, nil); err != nil {
		tb.Fatal(err)
	}
	wait(tb, p, `document.getElementById("picked-file")`)
	err = p.Eval(`(() => {
		const files = new DataTransfer(), input = document.getElementById("picked-file");
		files.items.add(new File([`+string(text)+`], "day.json", {type: "application/json"}));
		input.files = files.files;
		input.dispatchEvent(new Event("change"));
	})()`, nil)
	if err != nil {
		tb.Fatal(err)
	}
	wait(tb, p, `document.querySelectorAll('[data-do="edit"]').length >= `+fmt.Sprint(n))
}

// framedJS has a press, by its time stamp, measured to the end of the next frame.
const framedJS = `window.shown = [];
	const framed = (start) => requestAnimationFrame(() => {
		const after = new MessageChannel();
		after.port1.onmessage = () => shown.push(performance.now() - start);
		after.port2.postMessage(0);
	});`

// ranks sorts times and gives those that half of them and 95 of 100 are within.
func ranks(times []float64) (half, at95 float64) {
	slices.Sort(times)
	return times[len(times)/2], times[len(times)*95/100]
}

// BenchmarkKeyPress prints how long key presses take until they are on screen,
// with a day of 40 portions, at a quarter of the speed.
func BenchmarkKeyPress(b *testing.B) {
	s := serve(b, realSite)
	p := page(b, benchBrowser(b), s.url).(*chromiumPage)
	if err := p.Resize(390, 844); err != nil {
		b.Fatal(err)
	}
	ready(b, p)
	fullDay(b, p, 40)
	if err := p.slow(false); err != nil {
		b.Fatal(err)
	}
	// From the press's own time stamp to the end of the first frame that shows what
	// it changed. A press that has changed nothing when the next one comes is left
	// out.
	err := p.Eval(`void (() => {
		`+framedJS+`
		let changed = null;
		addEventListener("input", (e) => {
			changed?.disconnect();
			changed = new MutationObserver(() => {
				changed.disconnect();
				framed(e.timeStamp);
			});
			changed.observe(document.body, {subtree: true, childList: true, characterData: true, attributes: true});
		}, true);
	})()`, nil)
	if err != nil {
		b.Fatal(err)
	}
	presses := 0
	for _, word := range []string{"raisins", "black beans", "spinach", "brown rice", "yogurt", "peaches"} {
		for _, c := range word {
			if presses++; p.Type("#food", string(c)) != nil {
				b.Fatal("the field is gone")
			}
			time.Sleep(250 * time.Millisecond)
		}
		for range word {
			presses++
			if err := p.Press("Backspace"); err != nil {
				b.Fatal(err)
			}
			time.Sleep(250 * time.Millisecond)
		}
	}
	shown := eval[[]float64](b, p, `shown`)
	if len(shown) < presses/2 {
		b.Fatalf("only %d of %d key presses changed the page", len(shown), presses)
	}
	half, at95 := ranks(shown)
	b.ReportMetric(at95, "ms-p95")
	fmt.Printf("    %d key presses that changed the page: half within %.0f ms, slowest %.0f ms\n", len(shown), half, shown[len(shown)-1])
	limit(b, "key press to screen, ms, 95 of 100 within", at95, 50)
}

// BenchmarkMemory prints the program's memory after 1,000 edits.
func BenchmarkMemory(b *testing.B) {
	s := serve(b, realSite)
	p := page(b, benchBrowser(b), s.url).(*chromiumPage)
	ready(b, p)
	fullDay(b, p, 40)
	memory := func() float64 { return eval[float64](b, p, `cupsum.memory()`) / (1 << 20) }
	edit := func(times int) {
		for range times {
			for _, key := range []string{"a", "\b"} {
				if err := p.do(chromedp.KeyEvent(key)); err != nil {
					b.Fatal(err)
				}
			}
		}
	}
	if err := focused(p, "#food"); err != nil {
		b.Fatal(err)
	}
	edit(250)
	half := memory()
	edit(250)
	after := memory()
	b.ReportMetric(after, "MB")
	fmt.Printf("    memory after 500 edits %.1f MB, after 1000 %.1f MB\n", half, after)
	limit(b, "memory after 1000 edits, MB", after, 48)
	limit(b, "memory after 1000 edits / after 500", after/half, 1.1)
}
