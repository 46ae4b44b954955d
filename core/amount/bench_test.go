package amount

import "testing"

func BenchmarkRead(b *testing.B) {
	for _, text := range []string{"2 1/4 cups", "about 2.5", "0.333", "2 to 3 fl oz"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Read(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkAdd(b *testing.B) {
	x, y := Frac(7, 12), Frac(5, 8)
	b.ReportAllocs()
	for b.Loop() {
		x.Add(y)
	}
}

func BenchmarkMulAmount(b *testing.B) {
	x, y := Between(Frac(9, 4), Frac(5, 2), Frac(11, 4)), Exactly(Frac(1, 3))
	b.ReportAllocs()
	for b.Loop() {
		x.Mul(y)
	}
}

func BenchmarkMixed(b *testing.B) {
	x := Frac(29, 12)
	b.ReportAllocs()
	for b.Loop() {
		Mixed(x)
	}
}
