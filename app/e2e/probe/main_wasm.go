// Command probe is a page's program for the tests of the shell: it stores what a
// test asks it to, through app/browser alone, and shows one field.
package main

import (
	"encoding/json"
	"syscall/js"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"cupsum/app/browser"
)

func main() {
	app.Route("/", func() app.Composer { return &probe{} })
	store := browser.OpenStore()
	api := map[string]any{
		"memory":   browser.StorageIsMemory(),
		"embedded": browser.IsEmbedded(),
		"save": js.FuncOf(func(_ js.Value, args []js.Value) any {
			id, body, done := args[0].String(), args[1].String(), args[2]
			err := store.Save([]browser.Entry{{ID: id, Body: json.RawMessage(body)}}, func(o browser.Outcome) {
				done.Invoke(o.ID())
			})
			if err != nil {
				done.Invoke(err.Error())
			}
			return nil
		}),
		"docs": js.FuncOf(func(js.Value, []js.Value) any {
			docs := map[string]any{}
			for _, d := range store.Docs() {
				docs[d.ID] = string(d.Body)
			}
			return docs
		}),
		"damaged": js.FuncOf(func(js.Value, []js.Value) any {
			_, r := store.Load()
			return len(r.Damaged)
		}),
		"dropDamaged": js.FuncOf(func(_ js.Value, args []js.Value) any {
			store.DropDamaged(func(o browser.Outcome) { args[0].Invoke(o.ID()) })
			return nil
		}),
		"crash":       js.FuncOf(func(js.Value, []js.Value) any { go panic("the test asked for it"); return nil }),
		"announce":    js.FuncOf(func(_ js.Value, args []js.Value) any { browser.Announce(args[0].String()); return nil }),
		"apply":       js.FuncOf(func(js.Value, []js.Value) any { browser.ApplyUpdate(); return nil }),
		"setFragment": js.FuncOf(func(_ js.Value, args []js.Value) any { browser.SetFragment(args[0].String()); return nil }),
		"fragment":    js.FuncOf(func(js.Value, []js.Value) any { return browser.Fragment() }),
		"download": js.FuncOf(func(_ js.Value, args []js.Value) any {
			browser.Download("a.json", "application/json", args[0].String())
			return nil
		}),
		"updates": 0,
		"others":  0,
		"cleared": 0,
	}
	js.Global().Set("probe", api)
	count := func(name string) {
		p := js.Global().Get("probe")
		p.Set(name, p.Get(name).Int()+1)
	}
	browser.OnUpdateReady(func() { count("updates") })
	store.OnOtherTab(func(r browser.Report) {
		count("others")
		if r.Cleared {
			count("cleared")
		}
	})
	app.RunWhenOnBrowser()
}

type probe struct {
	app.Compo
	text string
}

func (p *probe) Render() app.UI {
	return app.Main().Class("sheet").Body(
		app.Label().For("food").Text("Food"),
		app.Input().ID("food").OnInput(func(ctx app.Context, e app.Event) { p.text = ctx.JSSrc().Get("value").String() }),
		app.P().ID("echo").Text("typed: "+p.text),
		app.Div().Class("tall"),
	)
}
