package label

import (
	"strings"

	"cupsum/core/amount"
	"cupsum/core/say"
)

// A Kind says how a serving size is measured in the household.
type Kind uint8

// The kinds of serving size.
const (
	MetricOnly  Kind = iota // grams or millilitres and nothing else: "122 g"
	ByVolume                // cups, spoons, fluid ounces: "1/2 cup"
	ByWeight                // ounces, pounds: "2 oz"
	ByPiece                 // a count of things: "2 halves", "12 chips"
	ByContainer             // whole containers: "1 can", "1 pudding cup"
	ByShare                 // part of one thing: "1/4 package", "1/6 pie"
)

// String is for tests and logs.
func (k Kind) String() string {
	return [...]string{"metric", "volume", "weight", "piece", "container", "share"}[k]
}

// A State is a set of words that say in which state the food is measured.
type State uint16

// The states.
const (
	Drained    State = 1 << iota // drained, without liquid
	WithLiquid                   // with its liquid
	Dry                          // dry, uncooked, dry mix
	Frozen                       // frozen, unpopped, not thawed
	Cooked                       // cooked, fried, baked
	Prepared                     // prepared, reconstituted, made up, popped
	Raw                          // raw
	AsPackaged                   // as packaged
	Condensed                    // condensed, concentrate: before water is added
	Popped                       // popcorn, popped
)

// Has tells whether all the states of t are in s.
func (s State) Has(t State) bool { return s&t == t }

// Made tells whether the food is meant as it is after cooking or mixing.
func (s State) Made() bool { return s&(Cooked|Prepared|Popped) != 0 }

// String is for tests and logs: "drained frozen".
func (s State) String() string {
	names := [...]string{"drained", "with-liquid", "dry", "frozen", "cooked", "prepared", "raw", "as-packaged", "condensed", "popped"}
	var b strings.Builder
	for i, n := range names {
		if s&(1<<i) != 0 {
			if b.Len() > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(n)
		}
	}
	return b.String()
}

// A Relation says how a second amount stands to the serving.
type Relation uint8

// The relations of a second amount.
const (
	Same    Relation = iota // the same serving in another measure: "(about 20 chips)"
	Makes                   // what it becomes: "makes 1 cup cooked"
	Besides                 // another food in the same serving: "and 2 tbsp sauce"
	Holds                   // what the container holds in pieces: "1 pack (4 biscuits)"
)

// String is for tests and logs.
func (r Relation) String() string {
	return [...]string{"same", "makes", "besides", "holds"}[r]
}

// A Measure is one amount on a label: a number with a unit, or with the noun
// that it counts.
type Measure struct {
	Amount amount.Amount
	Unit   amount.Unit // NoUnit where Noun is counted
	Noun   string      // lower case, singular where that is known: "half", "pudding cup"; empty for a unit
	Size   string      // small, medium, large, "1-inch"; empty mostly
	State  State
	About  bool // the label says "about"
}

// A Second is a further amount in the same text.
type Second struct {
	Relation Relation
	Measure
	Metric    amount.Quantity // its own metric amount, where one stands beside it
	HasMetric bool
}

// A Serving is one serving size as printed. The embedded Measure is the
// household measure and is empty (Amount zero) where Kind is MetricOnly.
type Serving struct {
	Text string // as printed, spaces folded
	Kind Kind
	Measure
	Metric    amount.Quantity // in grams (amount.G) or millilitres (amount.Ml), as printed
	HasMetric bool
	Seconds   []Second
	Servings  amount.Amount // servings per container, where the text names them; else zero
	Rest      string        // words that were read but say nothing about the size
	Flags     []say.Line    // doubts and contradictions, each a sentence
}

// IsPackage tells whether the serving is one whole package or part of it, so
// that the net weight alone says how much it is.
func (s Serving) IsPackage() bool {
	return (s.Kind == ByContainer || s.Kind == ByShare) && isContainer(s.Noun)
}

// A Meta says how the number of servings was printed.
type Meta struct {
	Printed amount.Num // the number as printed
	About   bool       // "about 2.5": the amount is the range that the rounding rule allows
	Varied  bool       // "varied": the packages differ in weight
	Flags   []say.Line
}

// A Net is the net quantity of a whole package.
type Net struct {
	Text       string
	Weight     amount.Amount // in grams
	HasWeight  bool
	Volume     amount.Amount // in millilitres
	HasVolume  bool
	Drained    amount.Amount // drained weight in grams, where the label prints it
	HasDrained bool
	Count      amount.Num // packages or pieces inside, where the text says so; else 0
	Flags      []say.Line
}
