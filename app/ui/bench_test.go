package ui

import (
	"testing"

	"cupsum/app/lang"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// BenchmarkKeyPress is what one key press in Convert costs before the browser
// is touched: the update, and drawing everything but the parts that are
// components.
func BenchmarkKeyPress(b *testing.B) {
	m := play(Press{Do: "sample"}, Typed{"food", "canned peaches"}, Key{Name: "Enter"}, Typed{"size", "1/2 cup (124 g)"})
	b.Run("update", func(b *testing.B) {
		for i := range b.N {
			m = update(m, Typed{"servings", []string{"5", "4"}[i%2]})
		}
	})
	b.Run("draw", func(b *testing.B) {
		b.ReportAllocs()
		for range b.N {
			v := &view{Model: m, w: lang.English()}
			v.page(app.Div(), app.Div(), app.Div())
		}
	})
	b.Run("search", func(b *testing.B) {
		for i := range b.N {
			update(m, Typed{"food", []string{"pea", "peach"}[i%2]})
		}
	})
	b.Run("check", func(b *testing.B) {
		for range b.N {
			m.Day.check()
		}
	})
	b.Run("day", func(b *testing.B) {
		b.ReportAllocs()
		for range b.N {
			(&view{Model: m, w: lang.English()}).dayView()
		}
	})
}
