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
	s := Set{Pattern: PatternOwn, Origin: rule.Practice}
	if err := s.read(top); err != nil {
		return Set{}, err
	}
	return s, nil
}

// read fills the set from a file's top object.
func (s *Set) read(top *node) error {
	// Format and version first: a file of another kind or time may well have
	// other names, and the person should hear why.
	if !top.get("format").is(ProgramFormat) {
		return wrong("format", "program.format")
	}
	if v := top.get("version"); v == nil {
		return wrong("version", "program.missing", "version")
	} else if v.kind != numberNode || v.text != strconv.Itoa(ProgramVersion) {
		return wrong("version", "program.version", v.text, ProgramVersion)
	}
	if err := top.only("format", "version", "id", "name", "edition", "source", "level", "targets"); err != nil {
		return err
	}
	var edition string
	for _, f := range []struct {
		name string
		to   *string
		most int
	}{{"id", &s.ID, maxID}, {"name", &s.Name, maxName}, {"edition", &edition, maxID}, {"source", &s.Source, maxSource}} {
		if err := top.line(f.name, f.most, f.to); err != nil {
			return err
		}
	}
	if err := checkProgramID(s.ID); err != nil {
		return err
	}
	s.Edition = EditionID(edition)
	if !slices.Contains(Editions(), s.Edition) {
		return wrong("edition", "program.edition", edition, "dga-2020, dga-2025")
	}
	if l := top.get("level"); l != nil {
		n, err := strconv.Atoi(l.text)
		if l.kind != numberNode || err != nil || n < 600 || n > 4000 {
			return wrong("level", "program.level")
		}
		s.Level = n
	}
	return s.readTargets(top.get("targets"))
}

func (s *Set) readTargets(list *node) error {
	switch {
	case list == nil:
		return wrong("targets", "program.missing", "targets")
	case list.kind != listNode || len(list.items) == 0 || len(list.items) > maxTargets:
		return wrong("targets", "program.targets", maxTargets)
	}
	for _, item := range list.items {
		t := Target{Origin: rule.Practice}
		if err := t.read(item, s.Edition); err != nil {
			return err
		}
		if s.has(&t) {
			return wrong(item.path, "program.doubled")
		}
		s.Targets = append(s.Targets, t)
	}
	return nil
}

// has tells whether the set has a target for the same part and period.
func (s *Set) has(t *Target) bool {
	for i := range s.Targets {
		if o := &s.Targets[i]; o.Group == t.Group && o.Subgroup == t.Subgroup && o.Weekly == t.Weekly {
			return true
		}
	}
	return false
}

// only refuses names that the format doesn't have: a misspelt "hihg" must not
// pass for no upper end.
func (n *node) only(names ...string) error {
	for i, name := range n.names {
		if !slices.Contains(names, name) {
			return wrong(n.items[i].path, "program.unknown-key", name)
		}
	}
	return nil
}

// line reads a text that must be there, in one line, of at most so many
// characters.
func (n *node) line(name string, most int, to *string) error {
	v := n.get(name)
	if v == nil || v.is("") {
		return wrong(n.at(name), "program.missing", name)
	}
	bad := v.kind != textNode || utf8.RuneCountInString(v.text) > most
	for _, c := range v.text {
		bad = bad || unicode.IsControl(c) || c == '\u2028' || c == '\u2029' || unicode.Is(unicode.Bidi_Control, c)
	}
	if bad {
		return wrong(v.path, "program.text", name, most)
	}
	*to = v.text
	return nil
}

func checkProgramID(id string) error {
	ok := len(id) <= maxID
	for _, c := range id {
		ok = ok && (c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-')
	}
	if _, taken := SetByID(id); !ok || taken {
		return wrong("id", "program.id", id)
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

// read fills the target from its object, under an edition.
func (t *Target) read(n *node, e EditionID) error {
	if n.kind != objectNode {
		return wrong(n.path, "program.target")
	}
	if err := n.only("group", "subgroup", "low", "high", "unit", "period"); err != nil {
		return err
	}
	var group string
	if err := n.line("group", maxID, &group); err != nil {
		return err
	}
	g, ok := food.GroupByID(group)
	if !ok || !slices.Contains(food.Groups(), g) {
		return wrong(n.at("group"), "program.group", group)
	}
	t.Group, t.Unit = g, UnitFor(e, g)
	if v := n.get("subgroup"); v != nil {
		if t.Subgroup, ok = food.SubgroupByID(g, v.text); !ok || v.kind != textNode {
			return wrong(v.path, "program.subgroup", v.text, g.Term())
		}
	}
	if v := n.get("unit"); v != nil && !v.is(t.Unit.ID()) {
		return wrong(v.path, "program.unit", v.text, g.Term(), t.Unit.ID())
	}
	if v := n.get("period"); v != nil && !v.is("day") {
		if !v.is("week") {
			return wrong(v.path, "program.period", v.text)
		}
		t.Weekly = true
	}
	return t.ends(n)
}

// ends reads the low and high end of a target.
func (t *Target) ends(n *node) error {
	most := 30
	if t.Unit == GramOil {
		most = 200
	}
	if t.Weekly {
		most *= 7
	}
	low, err := n.end("low", most, &t.Low)
	if err != nil {
		return err
	}
	high, err := n.end("high", most, &t.High)
	switch {
	case err != nil:
		return err
	case !low && !high:
		return wrong(n.path, "program.no-amount")
	case high && t.High.Less(t.Low):
		return wrong(n.at("high"), "program.order", t.Low, t.High)
	}
	return nil
}

// end reads one end, if it is there.
func (n *node) end(name string, most int, to *amount.Num) (found bool, err error) {
	v := n.get(name)
	if v == nil || v.is("") {
		return false, nil
	}
	r, err := amount.ReadNumber(v.text)
	if v.kind != textNode && v.kind != numberNode || err != nil || r.About || r.IsRange {
		return false, wrong(v.path, "program.amount", v.text)
	}
	x := r.Amount.Best
	if x.Sign() <= 0 || amount.Int(int64(most)).Less(x) {
		return false, wrong(v.path, "program.bounds", x, most)
	}
	*to = x
	return true, nil
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
		f.Targets = append(f.Targets, programTarget{t.Group.ID(), t.Subgroup.ID(), end(t.Low), end(t.High), t.Unit.ID(), period})
	}
	data, err := json.MarshalIndent(f, "", "  ")
	if err != nil { // texts and whole numbers always marshal
		return nil
	}
	return append(data, '\n')
}

// end writes one end of a target; "" for 0, which is none.
func end(x amount.Num) string {
	if x.Sign() == 0 {
		return ""
	}
	return amount.Typed(x)
}
