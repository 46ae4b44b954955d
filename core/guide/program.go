package guide

import (
	"encoding/json"
	"slices"
	"strconv"
	"unicode"
	"unicode/utf8"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// What a programme's own file is bound by.
const (
	ProgramFormat  = "cupsum-targets"
	ProgramVersion = 1
	MaxProgramFile = 64 << 10 // bytes

	maxTargets = 60
	maxName    = 80  // characters
	maxSource  = 200 // characters
	maxID      = 40
)

// PatternOwn is the pattern of a programme's own set.
const PatternOwn = "own"

// ReadSet reads a programme's own targets from its JSON file, whose format
// the package comment gives. Nothing in the file is taken
// on trust: sizes, names, units and bounds are checked. Errors are
// [*say.Problem] with an id starting "program." and, where one value is to
// blame, its path as field: "targets[2].low".
func ReadSet(data []byte) (Set, error) {
	if len(data) > MaxProgramFile {
		return Set{}, say.Wrong("program.too-large", MaxProgramFile>>10)
	}
	top, err := readTree(data)
	if err != nil {
		return Set{}, err
	}
	if top.kind != objectNode {
		return Set{}, say.Wrong("program.not-object")
	}
	return readProgram(top)
}

func readProgram(top node) (Set, error) {
	// Format and version first: a file of another kind or time may well have
	// other names, and the person should hear why.
	if f, _ := top.get("format"); f.kind != textNode || f.text != ProgramFormat {
		return Set{}, say.Wrong("program.format").In("format")
	}
	if v, ok := top.get("version"); !ok {
		return Set{}, say.Wrong("program.missing", "version").In("version")
	} else if v.kind != numberNode || v.text != strconv.Itoa(ProgramVersion) {
		return Set{}, say.Wrong("program.version", clip(v.text), ProgramVersion).In("version")
	}
	if err := top.only("format", "version", "id", "name", "edition", "source", "level", "targets"); err != nil {
		return Set{}, err
	}
	s := Set{Pattern: PatternOwn, Origin: rule.Practice}
	var edition string
	for _, f := range []struct {
		name string
		to   *string
		most int
	}{{"id", &s.ID, maxID}, {"name", &s.Name, maxName}, {"edition", &edition, maxID}, {"source", &s.Source, maxSource}} {
		text, err := top.line(f.name, f.most)
		if err != nil {
			return Set{}, err
		}
		*f.to = text
	}
	if err := checkProgramID(s.ID); err != nil {
		return Set{}, err
	}
	s.Edition = EditionID(edition)
	if !slices.Contains(Editions(), s.Edition) {
		return Set{}, say.Wrong("program.edition", clip(edition), "dga-2020, dga-2025").In("edition")
	}
	if l, ok := top.get("level"); ok {
		n, err := strconv.Atoi(l.text)
		if l.kind != numberNode || err != nil || n < 600 || n > 4000 {
			return Set{}, say.Wrong("program.level").In("level")
		}
		s.Level = n
	}
	list, ok := top.get("targets")
	if !ok {
		return Set{}, say.Wrong("program.missing", "targets").In("targets")
	}
	if list.kind != listNode || len(list.items) == 0 || len(list.items) > maxTargets {
		return Set{}, say.Wrong("program.targets", maxTargets).In("targets")
	}
	for _, item := range list.items {
		t, err := readTarget(item, s.Edition)
		if err != nil {
			return Set{}, err
		}
		if _, twice := s.Target(t.Group, t.Subgroup, t.Weekly); twice {
			return Set{}, say.Wrong("program.doubled").In(item.path)
		}
		s.Targets = append(s.Targets, t)
	}
	return s, nil
}

// only refuses names that the format doesn't have: a misspelt "hihg" must not
// pass for no upper end.
func (n node) only(names ...string) error {
	for i, name := range n.names {
		if !slices.Contains(names, name) {
			return say.Wrong("program.unknown-key", clip(name)).In(n.items[i].path)
		}
	}
	return nil
}

// line reads a text that must be there, in one line, of at most so many
// characters.
func (n node) line(name string, most int) (string, error) {
	v, ok := n.get(name)
	if !ok || v.kind == textNode && v.text == "" {
		return "", say.Wrong("program.missing", name).In(n.at(name))
	}
	bad := utf8.RuneCountInString(v.text) > most
	for _, c := range v.text {
		bad = bad || unicode.IsControl(c) || c == '\u2028' || c == '\u2029' || unicode.Is(unicode.Bidi_Control, c)
	}
	if v.kind != textNode || bad {
		return "", say.Wrong("program.text", name, most).In(v.path)
	}
	return v.text, nil
}

func (n node) at(name string) string {
	if n.path == "" {
		return name
	}
	return n.path + "." + name
}

func checkProgramID(id string) error {
	ok := len(id) <= maxID
	for _, c := range id {
		ok = ok && (c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-')
	}
	if _, taken := SetByID(id); !ok || taken {
		return say.Wrong("program.id", clip(id)).In("id")
	}
	return nil
}

// UnitFor is what a group is counted in under an edition.
func UnitFor(e EditionID, g food.Group) Unit {
	switch {
	case e == DGA2025:
		return Serving
	case g == food.Grain || g == food.Protein:
		return OzEq
	case g == food.Oil:
		return GramOil
	}
	return CupEq
}

func readTarget(n node, e EditionID) (Target, error) {
	if n.kind != objectNode {
		return Target{}, say.Wrong("program.target").In(n.path)
	}
	if err := n.only("group", "subgroup", "low", "high", "unit", "period"); err != nil {
		return Target{}, err
	}
	t := Target{Origin: rule.Practice}
	text, err := n.line("group", maxID)
	if err != nil {
		return t, err
	}
	g, ok := food.GroupByID(text)
	if !ok || !slices.Contains(food.Groups(), g) {
		return t, say.Wrong("program.group", clip(text)).In(n.at("group"))
	}
	t.Group, t.Unit = g, UnitFor(e, g)
	if v, ok := n.get("subgroup"); ok {
		sub, known := food.SubgroupByID(g, v.text)
		if v.kind != textNode || !known {
			return t, say.Wrong("program.subgroup", clip(v.text), g.Term()).In(v.path)
		}
		t.Subgroup = sub
	}
	if v, ok := n.get("unit"); ok && (v.kind != textNode || v.text != t.Unit.ID()) {
		return t, say.Wrong("program.unit", clip(v.text), g.Term(), t.Unit.ID()).In(v.path)
	}
	if v, ok := n.get("period"); ok {
		if v.kind != textNode || v.text != "day" && v.text != "week" {
			return t, say.Wrong("program.period", clip(v.text)).In(v.path)
		}
		t.Weekly = v.text == "week"
	}
	return t, n.ends(&t)
}

// ends reads the low and high end of a target.
func (n node) ends(t *Target) error {
	most := int64(30)
	if t.Unit == GramOil {
		most = 200
	}
	if t.Weekly {
		most *= 7
	}
	found := false
	for _, end := range []struct {
		name string
		to   *amount.Num
	}{{"low", &t.Low}, {"high", &t.High}} {
		v, ok := n.get(end.name)
		if !ok || v.kind == textNode && v.text == "" {
			continue
		}
		r, err := amount.ReadNumber(v.text)
		if v.kind != textNode && v.kind != numberNode || err != nil || r.About || r.IsRange {
			return say.Wrong("program.amount", clip(v.text)).In(v.path)
		}
		x := r.Amount.Best
		if x.Sign() <= 0 || amount.Int(most).Less(x) {
			return say.Wrong("program.bounds", x, int(most)).In(v.path)
		}
		*end.to, found = x, true
	}
	switch {
	case !found:
		return say.Wrong("program.no-amount").In(n.path)
	case t.High.Sign() > 0 && t.High.Less(t.Low):
		return say.Wrong("program.order", t.Low, t.High).In(n.at("high"))
	}
	return nil
}

// Own makes a programme's own set of another one, with its id, name and
// source. Targets that a file can't hold are left out: those for a part of a
// subgroup, and beans among the protein foods.
func (s Set) Own(id, name, source string) Set {
	own := Set{ID: id, Edition: s.Edition, Pattern: PatternOwn, Level: s.Level, Name: name, Source: source, Origin: rule.Practice}
	for _, t := range s.Targets {
		if t.Part == "" && (t.Subgroup == food.NoSubgroup || t.Subgroup.Group() == t.Group) {
			t.Origin = rule.Practice
			own.Targets = append(own.Targets, t)
		}
	}
	return own
}

// programTarget and programFile are the file as written; amounts are texts, so
// that thirds stay exact.
type programTarget struct {
	Group    string `json:"group"`
	Subgroup string `json:"subgroup,omitempty"`
	Low      string `json:"low,omitempty"`
	High     string `json:"high,omitempty"`
	Unit     string `json:"unit"`
	Period   string `json:"period"`
}

type programFile struct {
	Format  string          `json:"format"`
	Version int             `json:"version"`
	ID      string          `json:"id"`
	Name    string          `json:"name"`
	Edition EditionID       `json:"edition"`
	Source  string          `json:"source"`
	Level   int             `json:"level,omitempty"`
	Targets []programTarget `json:"targets"`
}

// JSON writes the set as a programme's own file, which [ReadSet] reads back.
// Make a published set the programme's own first: [Set.Own].
func (s Set) JSON() []byte {
	f := programFile{Format: ProgramFormat, Version: ProgramVersion, ID: s.ID, Name: s.Name, Edition: s.Edition, Source: s.Source, Level: s.Level, Targets: []programTarget{}}
	for _, t := range s.Targets {
		period := "day"
		if t.Weekly {
			period = "week"
		}
		f.Targets = append(f.Targets, programTarget{t.Group.ID(), t.Subgroup.ID(), plain(t.Low), plain(t.High), t.Unit.ID(), period})
	}
	data, err := json.MarshalIndent(f, "", "  ")
	if err != nil { // texts and whole numbers always marshal
		return nil
	}
	return append(data, '\n')
}

// plain writes a number as people type it: "2 1/2"; "" for 0. A fraction too
// fine for [amount.Read] is a decimal of nine places: it came from one.
func plain(x amount.Num) string {
	if x.Sign() == 0 {
		return ""
	}
	if _, d, _ := x.Ints(); d > 999_999_999 {
		text, _ := amount.Decimal(x, 9)
		return text
	}
	whole := x.FloorRound(amount.Int(1))
	rest := x.Sub(whole)
	switch {
	case rest.Sign() == 0:
		return whole.String()
	case whole.Sign() == 0:
		return rest.String()
	}
	return whole.String() + " " + rest.String()
}
