package guide_test

import (
	"testing"

	"cupsum/core/food"
	"cupsum/core/guide"
)

func BenchmarkOnes(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if len(guide.Ones(guide.DGA2025, "yogurt")) != 1 {
			b.Fatal("no yogurt")
		}
	}
}

func BenchmarkSetByID(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := guide.SetByID("dga2025-3200"); !ok { // the last row
			b.Fatal("no set")
		}
	}
}

func BenchmarkSets(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if len(guide.Sets()) == 0 {
			b.Fatal("no sets")
		}
	}
}

func BenchmarkCautionsFor(b *testing.B) {
	f := food.Food{Group: food.Fruit, Cautions: []string{"sulfites", "choking"}}
	d := food.Detail{Form: food.Dried, Class: "fruit-dried"}
	b.ReportAllocs()
	for b.Loop() {
		if len(guide.CautionsFor(f, d)) != 3 {
			b.Fatal("cautions missing")
		}
	}
}

func BenchmarkSetFor(b *testing.B) {
	p := guide.Person{Age: 7, Sex: guide.Male, Activity: guide.Active}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := guide.SetFor(p, "mediterranean"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadSet(b *testing.B) {
	data := []byte(ownFile)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := guide.ReadSet(data); err != nil {
			b.Fatal(err)
		}
	}
}
