package label

import "strings"

// The words of serving sizes, in English and the Spanish of bilingual labels.
// They are lists of words, not figures: each is a word that real labels print.

// containers are nouns for a whole package or a part of it that is sold or
// wrapped as one.
var containers = []string{
	"bag", "bottle", "bowl", "box", "can", "carton", "container", "cup", "envelope", "jar", "kit", "meal", "pack", "package",
	"packet", "pod", "pot", "pouch", "sachet", "sleeve", "stickpack", "tin", "tray", "tub", "tube",
	"vaso",
}

// shorts are other ways to write a noun, slips included.
var shorts = []struct{ word, noun string }{
	{"bgs", "bag"}, {"btl", "bottle"}, {"cntr", "container"}, {"cont", "container"}, {"ct", "piece"}, {"count", "piece"}, {"ea", "piece"}, {"each", "piece"},
	{"env", "envelope"}, {"h87", "piece"}, {"lolli", "lollipop"}, {"patties", "patty"}, {"pattie", "patty"}, {"pc", "piece"}, {"pcs", "piece"}, {"pce", "piece"},
	{"pck", "pack"}, {"pk", "pack"}, {"pkg", "package"}, {"pkgs", "package"}, {"pkt", "packet"}, {"portation", "portion"}, {"prtzl", "pretzel"}, {"prtzls", "pretzel"},
	{"pz", "piece"}, {"pza", "piece"}, {"pieza", "piece"}, {"piezas", "piece"}, {"rebanada", "slice"}, {"rebanadas", "slice"}, {"ptn", "portion"}, {"serv", "serving"}, {"porción", "serving"},
	{"porcion", "serving"}, {"porciones", "serving"}, {"sl", "slice"}, {"slc", "slice"}, {"unidad", "unit"}, {"unidades", "unit"}, {"mitad", "half"}, {"mitades", "half"},
	{"lata", "can"}, {"latas", "can"}, {"paquete", "package"}, {"paquetes", "package"}, {"bolsa", "bag"}, {"bolsas", "bag"}, {"botella", "bottle"}, {"botellas", "bottle"}, {"caja", "box"}, {"envase", "container"}, {"envases", "container"}, {"frasco", "jar"}, {"sobre", "envelope"}, {"sobres", "envelope"}, {"tarro", "jar"},
	{"galleta", "cookie"}, {"galletas", "cookie"}, {"tajada", "slice"}, {"tajadas", "slice"}, {"cucharón", "scoop"},
}

// parts are nouns that come before the food: in "1 slice bread" what is
// counted is slices.
var parts = []string{
	"ball", "bar", "biscuit", "breast", "bulb", "bunch", "clove", "cube", "dash", "drop", "ear", "fillet", "filet", "floret", "half", "head", "heart",
	"leaf", "link", "loaf", "patty", "piece", "pinch", "portion", "quarter", "ring", "roll", "scoop", "section", "segment", "serving", "sheet", "slice",
	"spear", "splash", "sprig", "square", "squeeze", "stalk", "stick", "strip", "unit", "wedge",
}

// sizes are the words for how big a piece is.
var sizes = []struct{ word, size string }{
	{"small", "small"}, {"sm", "small"}, {"medium", "medium"}, {"med", "medium"}, {"large", "large"}, {"lg", "large"}, {"lrg", "large"}, {"jumbo", "jumbo"},
	{"extra-large", "extra-large"}, {"mini", "mini"}, {"pequeño", "small"}, {"pequeña", "small"}, {"mediano", "medium"}, {"mediana", "medium"}, {"grande", "large"}, {"grandes", "large"},
}

// fills say how a cup or spoon is filled; a cup is still a cup after them.
var fills = []string{"level", "leveled", "heaping", "heaped", "rounded", "scant", "packed", "full", "measuring", "dry", "us", "metric", "loosely", "cooked", "frozen", "standard"}

// stops end the noun: what comes after them is about something else.
var stops = []string{
	"with", "without", "plus", "in", "per", "for", "from", "on", "as", "when", "if", "each", "contains", "based", "random", "serving", "servings", "includes", "con", "sin", "por", "para", "approximately",
}

// links join a number to its noun and say nothing: "1/4 of the pizza".
var links = []string{"of", "a", "an", "the", "one", "de", "del", "la", "el", "un", "una"}

// stateWords are the phrases that tell a state; the longest match counts.
var stateWords = []struct {
	words string
	state State
}{
	{"drained", Drained}, {"drain", Drained}, {"without liquid", Drained}, {"no liquid", Drained}, {"without brine", Drained}, {"without juice", Drained}, {"without syrup", Drained}, {"without water", Drained},
	{"drained solids", Drained}, {"solids", Drained}, {"escurrido", Drained}, {"escurrida", Drained}, {"escurridos", Drained}, {"escurridas", Drained}, {"drained weight", Drained}, {"drained wt", Drained},
	{"undrained", WithLiquid}, {"not drained", WithLiquid}, {"with liquid", WithLiquid}, {"in liquid", WithLiquid}, {"with the liquid", WithLiquid}, {"including liquid", WithLiquid}, {"and liquid", WithLiquid},
	{"solids and liquid", WithLiquid}, {"solids and liquids", WithLiquid}, {"with juice", WithLiquid}, {"with syrup", WithLiquid}, {"in syrup", WithLiquid}, {"in juice", WithLiquid}, {"con líquido", WithLiquid}, {"con liquido", WithLiquid}, {"with brine", WithLiquid},
	{"dry", Dry}, {"uncooked", Dry}, {"unprepared", Dry}, {"dry mix", Dry}, {"dry wt", Dry}, {"dry weight", Dry}, {"seco", Dry}, {"seca", Dry}, {"secos", Dry}, {"secas", Dry}, {"powder", Dry}, {"unpopped", Dry}, {"kernels", Dry},
	{"frozen", Frozen}, {"not thawed", Frozen}, {"congelado", Frozen}, {"congelada", Frozen}, {"congelados", Frozen}, {"congeladas", Frozen},
	{"cooked", Cooked}, {"fried", Cooked}, {"pan fried", Cooked}, {"baked", Cooked}, {"grilled", Cooked}, {"cocido", Cooked}, {"cocida", Cooked}, {"cocidos", Cooked}, {"cocidas", Cooked}, {"cocinado", Cooked}, {"cocinada", Cooked},
	{"prepared", Prepared}, {"reconstituted", Prepared}, {"recon", Prepared}, {"when mixed", Prepared}, {"mixed with", Prepared}, {"as prepared", Prepared}, {"preparado", Prepared}, {"preparada", Prepared}, {"made up", Prepared}, {"brewed", Prepared},
	{"popped", Popped}, {"raw", Raw}, {"crudo", Raw}, {"cruda", Raw}, {"not cooked", Dry}, {"not prepared", Dry},
	{"as packaged", AsPackaged}, {"as pkgd", AsPackaged}, {"as packed", AsPackaged}, {"as sold", AsPackaged}, {"as purchased", AsPackaged},
	{"condensed", Condensed}, {"concentrate", Condensed}, {"concentrated", Condensed}, {"conc", Condensed}, {"undiluted", Condensed},
}

// relationWords are the words before a second amount that say what it is.
var relationWords = []struct {
	word     string
	relation Relation
}{
	{"makes", Makes}, {"make", Makes}, {"yields", Makes}, {"yield", Makes}, {"prepares", Makes}, {"coats", Makes}, {"becomes", Makes}, {"reconstituted", Makes}, {"recon", Makes}, {"for", Makes}, {"gives", Makes}, {"rinde", Makes}, {"rinden", Makes}, {"into", Makes},
	{"and", Besides}, {"plus", Besides}, {"&", Besides}, {"with", Besides}, {"+", Besides}, {"y", Besides}, {"con", Besides},
	{"or", Same}, {"=", Same}, {"equals", Same}, {"o", Same}, {"approx", Same},
}

// notFood are units that do not measure how much food there is.
var notFood = []string{
	"mg", "mcg", "iu", "kcal", "cal", "cals", "calorie", "calories", "kj", "percent", "dv", "inch", "inches", "foot", "feet", "ft", "mile", "miles", "km", "cm", "mm", "meter", "meters", "metre", "metres",
	"hour", "hours", "hr", "hrs", "minute", "minutes", "min", "mins", "day", "days", "week", "weeks", "year", "years", "month", "months", "dollar", "dollars", "usd", "degree", "degrees", "watt", "watts",
}

var numberWords = []struct {
	word string
	n    string
}{
	{"one", "1"}, {"two", "2"}, {"three", "3"}, {"four", "4"}, {"five", "5"}, {"six", "6"}, {"seven", "7"}, {"eight", "8"}, {"nine", "9"}, {"ten", "10"}, {"eleven", "11"}, {"twelve", "12"},
	{"una", "1"}, {"dos", "2"}, {"tres", "3"}, {"cuatro", "4"}, {"cinco", "5"}, {"seis", "6"},
}

func oneOf(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}

// isContainer tells whether the noun is a container: "can", "pudding cup".
func isContainer(noun string) bool {
	if i := strings.LastIndexByte(noun, ' '); i >= 0 {
		noun = noun[i+1:]
	}
	return oneOf(containers, noun)
}

// wordsStart tells whether the words begin with the phrase, and how many of
// them it takes.
func wordsStart(words []string, phrase string) int {
	if len(words) == 0 || !strings.HasPrefix(phrase, words[0]) {
		return 0 // most phrases end here, without a look at the rest
	}
	n := 0
	for part := range strings.SplitSeq(phrase, " ") {
		if n >= len(words) || words[n] != part {
			return 0
		}
		n++
	}
	return n
}

// cutStates takes the state words out of words and returns the rest.
func cutStates(words []string) (State, []string) {
	var s State
	rest := words[:0:0]
	after := true // at the start, or right after a state
	for i := 0; i < len(words); {
		best, state := 0, State(0)
		if words[i] == "mix" && after { // "1/4 cup mix"; but a salad mix is not dry
			best, state = 1, Dry
		}
		for _, w := range stateWords {
			if n := wordsStart(words[i:], w.words); n > best {
				best, state = n, w.state
			}
		}
		if best == 0 {
			rest = append(rest, words[i])
			i++
			after = false
			continue
		}
		s, after = s|state, true
		i += best
	}
	return s, rest
}

// irregular plurals, and words that only look like plurals.
var irregular = []struct{ plural, one string }{
	{"halves", "half"}, {"loaves", "loaf"}, {"leaves", "leaf"}, {"cookies", "cookie"}, {"brownies", "brownie"}, {"pies", "pie"}, {"pierogies", "pierogie"}, {"smoothies", "smoothie"}, {"veggies", "veggie"},
	{"quiches", "quiche"}, {"pastries", "pastry"}, {"peices", "piece"}, {"pleces", "piece"}, {"peaches", "peach"}, {"bunches", "bunch"}, {"pitas", "pita"}, {"bass", "bass"}, {"asparagus", "asparagus"}, {"hummus", "hummus"}, {"couscous", "couscous"},
	{"contalner", "container"}, {"swiss", "swiss"}, {"geese", "goose"}, {"knives", "knife"}, {"thighs", "thigh"}, {"selfies", "selfie"}, {"calories", "calorie"}, {"weenies", "weenie"}, {"wienies", "wienie"}, {"patties", "patty"}, {"sweeties", "sweetie"},
	{"minis", "mini"}, {"raviolis", "ravioli"}, {"kiwis", "kiwi"}, {"chilis", "chili"}, {"pierogis", "pierogi"}, {"cannolis", "cannoli"}, {"fries", "fry"}, {"buses", "bus"}, {"tamales", "tamale"}, {"toes", "toe"}, {"shoes", "shoe"}, {"molasses", "molasses"}, {"swordfish", "swordfish"}, {"tortas", "torta"}, {"series", "series"}, {"lentils", "lentil"}, {"quiches", "quiche"}, {"avalanches", "avalanche"},
}

// singular gives the one of a plural noun, as far as rules go.
func singular(w string) string {
	for _, x := range irregular {
		if x.plural == w {
			return x.one
		}
	}
	for _, s := range shorts {
		if s.word == w {
			return s.noun
		}
	}
	switch {
	case len(w) < 4 || !strings.HasSuffix(w, "s") || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us") || strings.HasSuffix(w, "is"):
		return w
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "xes"), strings.HasSuffix(w, "sses"), strings.HasSuffix(w, "oes"), strings.HasSuffix(w, "zzes"):
		return w[:len(w)-2]
	}
	return w[:len(w)-1]
}
