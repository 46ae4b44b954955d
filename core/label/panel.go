package label

import (
	"strings"
	"unicode/utf8"

	"cupsum/core/amount"
	"cupsum/core/say"
)

// MaxPanel is the longest text of a label, in bytes, that is read. A panel has
// a few hundred characters; a whole web page is not one.
const MaxPanel = 10_000

// A Panel is what a Nutrition Facts panel and the package around it say. A
// part that isn't there is zero and its Has is false.
type Panel struct {
	Servings     amount.Amount // per container
	ServingsMeta Meta
	HasServings  bool

	Serving    Serving
	HasServing bool

	Net    Net
	HasNet bool

	Sodium    Fact
	HasSodium bool
	Sugars    Fact // total sugars
	HasSugars bool
	Added     Fact
	HasAdded  bool

	Medium Medium // NoMedium when none is named
	Claims []Claim

	// Problems are the parts that stand in the text but could not be read,
	// each with the part's name in Field: servings, size, net, sodium, sugars,
	// added.
	Problems []*say.Problem
}

// Fact returns one of the nutrients.
func (p Panel) Fact(n Nutrient) (f Fact, ok bool) {
	switch n {
	case Sodium:
		return p.Sodium, p.HasSodium
	case TotalSugars:
		return p.Sugars, p.HasSugars
	case AddedSugars:
		return p.Added, p.HasAdded
	}
	return Fact{}, false
}

// ReadPanel reads the pasted text of a Nutrition Facts panel, in one line or
// many, of the present or the former layout. A part that can't be read is in
// Problems and the rest is still there. The error is a [*say.Problem] where
// the text is longer than [MaxPanel] or has nothing of a label in it.
func ReadPanel(text string) (Panel, error) {
	if len(text) > MaxPanel {
		return Panel{}, wrong("label.panel-long", MaxPanel)
	}
	if strings.TrimSpace(text) == "" {
		return Panel{}, wrong("label.panel-empty")
	}
	r := newPanelReader(text)
	var p Panel
	r.servings(&p)
	r.size(&p)
	r.net(&p)
	r.facts(&p)
	words := plain(text)
	p.Medium, _ = mediumIn(words)
	p.Claims = claimsIn(words)
	if !p.HasServings && !p.HasServing && !p.HasNet && !p.HasSodium && !p.HasSugars && !p.HasAdded && p.Medium == NoMedium && len(p.Claims) == 0 && len(p.Problems) == 0 {
		return Panel{}, wrong("label.panel-none", quote(text))
	}
	return p, nil
}

// A panelReader holds the text folded, with line ends kept, and the same in
// lower case at the same offsets.
type panelReader struct {
	text, low string
}

func newPanelReader(text string) panelReader {
	var b strings.Builder
	for line := range strings.Lines(text) {
		if line = strings.Join(strings.Fields(foldRunes(line)), " "); line != "" {
			b.WriteString(line)
			b.WriteByte('\n')
		}
	}
	t := b.String()
	return panelReader{t, asciiLower(t)}
}

// asciiLower keeps every offset, which strings.ToLower does not.
func asciiLower(s string) string {
	b := []byte(s)
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			b[i] = c + 'a' - 'A'
		}
	}
	return string(b)
}

// headings are where another part of the panel begins; a part ends there.
var headings = []string{
	"nutrition facts", "serving size", "servings per", "serving per", "servings:", "amount per", "amount/serving", "calories", "total fat", "sodium", "cholesterol", "% daily", "%daily", "percent daily", "ingredients", "net wt", "net weight", "net contents", "contains",
	"total sugars", "total carb", "includes", "protein", "vitamin", "distributed", "datos de nutric", "porciones por", "raciones por", "tamaño", "cantidad por", "calorías", "peso neto",
}

// part is the text from the offset to the end of its line or the next heading;
// where the line has no more, the next line.
func (r panelReader) part(from int) string {
	end := from + max(0, strings.IndexByte(r.low[from:]+"\n", '\n'))
	if end > len(r.low) {
		end = len(r.low)
	}
	if strings.Trim(r.text[from:end], " :.") == "" && end < len(r.low) {
		from = end + 1
		end = min(len(r.low), from+strings.IndexByte(r.low[from:]+"\n", '\n'))
	}
	for _, h := range headings {
		if i := strings.Index(r.low[from:end], h); i >= 0 {
			end = from + i
		}
	}
	return strings.Trim(r.text[from:end], " :.,;")
}

// after finds the first of the keywords and returns the offset behind it.
func (r panelReader) after(keywords ...string) (at, end int, ok bool) {
	for _, k := range keywords {
		if i := strings.Index(r.low, k); i >= 0 {
			return i, i + len(k), true
		}
	}
	return 0, 0, false
}

func (r panelReader) servings(p *Panel) {
	at, end, ok := r.after("servings per container", "serving per container", "servings per package", "serving per package", "servings per pkg", "servings per bag", "servings per box", "servings per can", "servings per bottle", "servings per", "porciones por envase", "raciones por envase", "porciones por", "servings:")
	if !ok {
		return
	}
	text := r.numberBefore(at)
	if text == "" {
		text = r.part(end)
	}
	if text == "" {
		return
	}
	a, m, err := ReadServings(text)
	if err != nil {
		p.problem(err, "servings")
		return
	}
	p.Servings, p.ServingsMeta, p.HasServings = a, m, true
}

// numberBefore is the number that ends right before the offset, with "about"
// or "varied (" before it: "about 3.5 servings per container".
func (r panelReader) numberBefore(at int) string {
	line := r.text[strings.LastIndexByte(r.text[:at], '\n')+1 : at]
	line = strings.TrimRight(line, " ")
	i := len(line)
	digits := false
	for i > 0 {
		c, size := utf8.DecodeLastRuneInString(line[:i])
		if c >= '0' && c <= '9' || isVulgar(c) {
			digits = true
		} else if c != ' ' && c != '.' && c != ',' && c != '/' && c != '-' {
			break
		}
		i -= size
	}
	if !digits {
		if strings.HasSuffix(asciiLower(line), "varied") {
			return "varied"
		}
		return ""
	}
	number := strings.Trim(line[i:], " ,")
	lead := strings.Fields(asciiLower(line[:i]))
	if n := len(lead); n > 0 && (oneOf(aboutWords, strings.Trim(lead[n-1], ".~")) || lead[n-1] == "~") {
		return "about " + number
	}
	return number
}

func (r panelReader) size(p *Panel) {
	_, end, ok := r.after("serving size", "serv. size", "serv size", "tamaño por ración", "tamaño por porción", "tamaño de la porción", "tamaño de porción", "tamaño de la ración")
	if !ok {
		return
	}
	text := r.part(end)
	if text == "" {
		return
	}
	s, err := ReadServing(text)
	if err != nil {
		p.problem(err, "size")
		return
	}
	p.Serving, p.HasServing = s, true
}

func (r panelReader) net(p *Panel) {
	_, end, ok := r.after("net wt.", "net wt", "net weight", "net contents", "peso neto", "contenido neto")
	if !ok {
		if _, end, ok = r.after("\nnet "); !ok {
			return
		}
	}
	text := r.part(end)
	if text == "" {
		return
	}
	n, err := ReadNet(text)
	if err != nil {
		p.problem(err, "net")
		return
	}
	p.Net, p.HasNet = n, true
}

func (p *Panel) problem(err error, field string) {
	if w, ok := err.(*say.Problem); ok {
		p.Problems = append(p.Problems, w.In(field))
	}
}

// facts reads sodium, total and added sugars.
func (r panelReader) facts(p *Panel) {
	if f, ok := r.factAfter([]string{"sodium", "sodio"}, Sodium, p, "sodium"); ok {
		p.Sodium, p.HasSodium = f, true
	}
	if f, ok := r.factAfter([]string{"total sugars", "azúcares totales", "azucares totales", "total sugar", "sugars", "azúcares"}, TotalSugars, p, "sugars"); ok {
		p.Sugars, p.HasSugars = f, true
	}
	if f, ok := r.added(p); ok {
		p.Added, p.HasAdded = f, true
	}
}

// factAfter finds a keyword that a number with the nutrient's unit follows.
func (r panelReader) factAfter(keywords []string, n Nutrient, p *Panel, field string) (Fact, bool) {
	for _, k := range keywords {
		for from := 0; ; {
			i := strings.Index(r.low[from:], k)
			if i < 0 {
				break
			}
			at := from + i
			from = at + len(k)
			if n == TotalSugars && (strings.HasSuffix(strings.TrimRight(r.low[:at], " "), "added") || strings.HasPrefix(r.low[from:], " añadidos")) {
				continue
			}
			f, ok, err := readFact(r.text[from:], n)
			if err != nil {
				p.problem(err, field)
				return Fact{}, false
			}
			if ok {
				return f, true
			}
		}
	}
	return Fact{}, false
}

// added reads "Includes 10g Added Sugars 20%" and "Added Sugars 10 g 20%".
func (r panelReader) added(p *Panel) (Fact, bool) {
	at, end, ok := r.after("added sugars", "added sugar", "azúcares añadidos", "azucares añadidos")
	if !ok {
		return Fact{}, false
	}
	line := r.low[strings.LastIndexByte(r.low[:at], '\n')+1 : at]
	for _, w := range []string{"includes", "include", "incl.", "incl", "incluye"} {
		i := strings.LastIndex(line, w)
		if i < 0 {
			continue
		}
		f, ok, err := readFact(r.text[at-len(line)+i+len(w):at], AddedSugars)
		if err != nil {
			p.problem(err, "added")
			return Fact{}, false
		}
		if ok {
			f.Percent, f.HasPercent = percentAt(r.text[end:])
			return f, true
		}
	}
	f, ok, err := readFact(r.text[end:], AddedSugars)
	if err != nil {
		p.problem(err, "added")
	}
	return f, ok && err == nil
}

// The most of a nutrient that a serving can have: a serving is rarely a
// kilogram, and salt itself is 39 % sodium.
const (
	mostSodium = 40_000
	mostSugars = 1_000
)

// readFact reads ": less than 5 mg 0%" at the start of t.
func readFact(t string, n Nutrient) (f Fact, ok bool, err error) {
	t = strings.TrimLeft(t, " :.\n")
	low := asciiLower(t[:min(len(t), 40)])
	for _, w := range []string{"less than", "<", "menos de", "under"} {
		if strings.HasPrefix(low, w) {
			t, f.LessThan = strings.TrimLeft(t[len(w):], " "), true
			break
		}
	}
	if !startsNumber(t) {
		return Fact{}, false, nil
	}
	r, rest, err := amount.ReadPrefix(clip(t, 60))
	if err != nil {
		return Fact{}, false, err
	}
	if n == Sodium {
		u := asciiLower(rest)
		if r.Unit == amount.G && r.Amount.IsExact() { // "Sodium 0.46 g"
			r.Amount = r.Amount.Scale(amount.Int(1000))
		} else if r.Unit != amount.NoUnit || !strings.HasPrefix(u, "mg") {
			return Fact{}, false, nil
		} else {
			rest = rest[2:]
		}
	} else if r.Unit != amount.G {
		return Fact{}, false, nil
	}
	most := int64(mostSugars)
	if n == Sodium {
		most = mostSodium
	}
	if amount.Int(most).Less(r.Amount.High) {
		return Fact{}, false, wrong("label.nutrient-huge", n.Term(), r.Amount.Best, n.Unit())
	}
	f.Printed = r.Amount.Best
	f.Percent, f.HasPercent = percentAt(rest)
	return f, true, nil
}

// clip cuts t to at most n bytes, at a letter's edge.
func clip(t string, n int) string {
	if len(t) <= n {
		return t
	}
	for n > 0 && !utf8.RuneStart(t[n]) {
		n--
	}
	return t[:n]
}

// percentAt reads "20%" at the start of t, over a line end and brackets.
func percentAt(t string) (amount.Num, bool) {
	t = clip(strings.TrimLeft(t, " \n(:|,.;*"), 20)
	if !startsNumber(t) {
		return amount.Num{}, false
	}
	r, rest, err := amount.ReadPrefix(t)
	if err != nil || !strings.HasPrefix(rest, "%") || r.Unit != amount.NoUnit {
		return amount.Num{}, false
	}
	return r.Amount.Best, true
}
