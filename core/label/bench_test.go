package label

import "testing"

func BenchmarkReadServing(b *testing.B) {
	for _, text := range []string{"1/2 cup (130g)", "1/4 cup dry(45g) yields 3/4 cup cooked rice", "2 halves (128 g)"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := ReadServing(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkReadServings(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := ReadServings("about 3.5"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadPanel(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ReadPanel(beansPanel); err != nil {
			b.Fatal(err)
		}
	}
}
