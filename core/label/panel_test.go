package label

import (
	"strings"
	"testing"
	"time"

	"cupsum/core/amount"
	"cupsum/core/say"
)

// The panels are invented; their layout is that of 21 CFR 101.9(d), the
// present one and the one before 2016, as people paste them.
const beansPanel = `Black Beans
Nutrition Facts
about 3.5 servings per container
Serving size      1/2 cup (130g)
Amount per serving
Calories 110
% Daily Value*
Total Fat 0g 0%
Sodium 460mg 20%
Total Carbohydrate 20g 7%
Dietary Fiber 7g 25%
Total Sugars 1g
Includes 0g Added Sugars 0%
Protein 7g
NET WT 15.5 OZ (439g)
Reduced Sodium. Not a low sodium food.`

const peachPanel = "Nutrition Facts Serving Size 1/2 cup (124g) Servings Per Container about 3.5 Amount Per Serving Calories 100 Total Fat 0g 0% Sodium 10mg 0% Total Carbohydrate 24g 8% Sugars 20g Protein 0g Yellow cling peaches in heavy syrup. Ingredients: peaches, water, corn syrup, sugar. NET WT 15.25 OZ (432 g)"

const applePanel = `Datos de nutrición
4 porciones por envase
Tamaño por porción
1 taza (113 g)
Sodio 0mg 0%
Azúcares totales 12g
Incluye 0g azúcares añadidos 0%`

var panelTests = []struct {
	name, text                                string
	servings, serving, net                    string
	sodium, sodiumPercent, sugars, added, dvs string
	medium                                    string
	claims                                    string
}{
	{"present layout", beansPanel, "13/4..7/2..15/4", "volume: 1/2 cup | 130 g", "439 g", "460", "20", "1", "0", "0", "", "reduced-sodium"},
	{"former layout in one line", peachPanel, "13/4..7/2..15/4", "volume: 1/2 cup | 124 g", "432 g", "10", "0", "20", "", "", "heavy", ""},
	{"Spanish", applePanel, "4", "volume: 1 cup | 113 g", "", "0", "0", "12", "0", "0", "", ""},
	{"two columns", "2 servings per container\nServing size 1 cup (240g)\nSodium 150mg 7% 300mg 13%", "2", "volume: 1 cup | 240 g", "", "150", "7", "", "", "", "", ""},
	{"less than", "Sodium less than 5mg 0%\nTotal Sugars <1g\nIncludes less than 1 g Added Sugars 2%", "", "", "", "<5", "0", "<1", "<1", "2", "", ""},
	{"value on the next line", "Servings Per Container\n8\nServing Size\n2 Tbsp (32 g)\nSodium\n140 mg\n6%", "8", "volume: 2 tbsp | 32 g", "", "140", "6", "", "", "", "", ""},
	{"added sugars after the words", "Total Sugars 15 g\nAdded Sugars 10 g 20%", "", "", "", "", "", "15", "10", "20", "", ""},
	{"sodium in grams", "Sodium 0.46 g", "", "", "", "460", "", "", "", "", "", ""},
	{"medium and claims alone", "Pear halves in 100% juice. No sugar added!", "", "", "", "", "", "", "", "", "juice", "no-added-sugar"},
	{"windows line ends", "Servings per container: 3\r\nServing size: 1 can\r\n", "3", "container: 1 can", "", "", "", "", "", "", "", ""},
	{"one serving", "1 serving per container\nServing size 1 package (57g)", "1", "container: 1 package | 57 g", "", "", "", "", "", "", "", ""},
}

func factText(f Fact, ok bool) (amountText, percent string) {
	if !ok {
		return "", ""
	}
	amountText, _ = amount.Decimal(f.Printed, 2)
	if f.LessThan {
		amountText = "<" + amountText
	}
	if f.HasPercent {
		percent, _ = amount.Decimal(f.Percent, 1)
	}
	return amountText, percent
}

func TestReadPanel(t *testing.T) {
	for _, tt := range panelTests {
		t.Run(tt.name, func(t *testing.T) {
			p, err := ReadPanel(tt.text)
			if err != nil || len(p.Problems) > 0 {
				t.Fatalf("%v %v", err, p.Problems)
			}
			check := func(what, got, want string) {
				t.Helper()
				if got != want {
					t.Errorf("%s: %q, want %q", what, got, want)
				}
			}
			servings, serving := "", ""
			if p.HasServings {
				servings = p.Servings.String()
			}
			if p.HasServing {
				serving = describe(p.Serving)
			}
			check("servings", servings, tt.servings)
			check("serving", serving, tt.serving)
			check("net", netText(p.Net), tt.net)
			so, sp := factText(p.Sodium, p.HasSodium)
			su, _ := factText(p.Sugars, p.HasSugars)
			ad, ap := factText(p.Added, p.HasAdded)
			check("sodium", so, tt.sodium)
			check("sodium percent", sp, tt.sodiumPercent)
			check("sugars", su, tt.sugars)
			check("added", ad, tt.added)
			check("added percent", ap, tt.dvs)
			check("medium", p.Medium.ID(), tt.medium)
			var ids []string
			for _, c := range p.Claims {
				ids = append(ids, c.ID)
			}
			check("claims", strings.Join(ids, " "), tt.claims)
		})
	}
}

func TestReadPanelProblems(t *testing.T) {
	p, err := ReadPanel("0 servings per container\nServing size 3 meters\nSodium 99999999mg\nTotal Sugars 5g\nNet wt 0 oz")
	if err != nil || !p.HasSugars || p.HasServings || p.HasServing || p.HasSodium || p.HasNet {
		t.Fatalf("%+v, %v: the good part must be read and the bad ones left out", p, err)
	}
	got := map[string]string{}
	for _, q := range p.Problems {
		got[q.Field] = q.ID
	}
	for field, id := range map[string]string{"servings": "label.servings-zero", "size": "label.not-food-unit", "sodium": "label.nutrient-huge", "net": "label.net-zero"} {
		if got[field] != id {
			t.Errorf("%s: %q, want %q", field, got[field], id)
		}
	}
}

func TestReadPanelRefuses(t *testing.T) {
	for _, tt := range []struct{ text, id string }{
		{"", "label.panel-empty"},
		{" \n\t", "label.panel-empty"},
		{"Dear friend, see you on Tuesday.", "label.panel-none"},
		{"🥫🥫🥫", "label.panel-none"},
		{"\x00\x01\xff\xfe", "label.panel-none"},
		{strings.Repeat("x", MaxPanel+1), "label.panel-long"},
	} {
		_, err := ReadPanel(tt.text)
		if p, ok := err.(*say.Problem); !ok || p.ID != tt.id {
			t.Errorf("%.40q: %v, want %s", tt.text, err, tt.id)
		}
	}
}

// TestReadPanelIsQuick: 10 MB are refused at once, and the longest text that
// is read, of the worst kind, takes no time that a person would notice.
func TestReadPanelIsQuick(t *testing.T) {
	big := strings.Repeat("sodium 5 mg in ", 700_000)
	start := time.Now()
	if _, err := ReadPanel(big); err == nil {
		t.Error("10 MB must be refused")
	}
	for _, word := range []string{"sodium ", "added sugars ", "low sodium ", "in ", "servings per ", "1/2 ", "net wt ", "no sugar added ", "½"} {
		_, _ = ReadPanel(strings.Repeat(word, MaxPanel/len(word)))
	}
	if d := time.Since(start); d > 3*time.Second {
		t.Errorf("took %v", d)
	}
}

func TestFindMedium(t *testing.T) {
	for text, want := range map[string]Medium{
		"Sliced peaches in heavy syrup":                              MediumHeavy,
		"PEACHES IN EXTRA HEAVY SYRUP":                               MediumExtraHeavy,
		"Pears in Light Syrup":                                       MediumLight,
		"apricots in extra-light syrup":                              MediumExtraLight,
		"Peaches packed in lightly sweetened juice":                  MediumLight,
		"Pineapple in its own juice":                                 MediumJuice,
		"Pineapple chunks in 100% pineapple juice":                   MediumJuice,
		"Fruit cocktail in pear juice from concentrate":              MediumJuice,
		"Peaches in fruit juices and water":                          MediumJuiceWater,
		"Peaches packed in water":                                    MediumWater,
		"Ingredients: peaches, water, pear juice concentrate, sugar": NoMedium,
		"Cook in water for 10 minutes":                               NoMedium,
		"100% apple juice":                                           NoMedium,
		"in tomato sauce":                                            NoMedium,
		"duraznos en almíbar ligero":                                 MediumLight,
	} {
		if got, ok := FindMedium(text); got != want || ok != (want != NoMedium) {
			t.Errorf("%q: %q, want %q", text, got.ID(), want.ID())
		}
	}
}

func TestMediaOrder(t *testing.T) {
	ms := Media()
	if len(ms) != 7 || ms[0] != MediumWater || ms[6] != MediumExtraHeavy {
		t.Errorf("%v", ms)
	}
	for i, m := range ms {
		a := m.Advice()
		if want := "label.medium.better"; i > 2 && a.Line.ID != want || i <= 2 && a.Line.ID == want {
			t.Errorf("%s: %s", m.ID(), a.Line.ID)
		}
		if src, _ := m.Source(); src == "" || m.Form() == "" {
			t.Errorf("%s has no source or form", m.ID())
		}
	}
	if !NoMedium.Advice().Line.IsZero() {
		t.Error("no medium, no advice")
	}
}

func TestFindClaims(t *testing.T) {
	for text, want := range map[string]string{
		"LOW SODIUM":                              "low-sodium",
		"Very low sodium":                         "very-low-sodium",
		"low-sodium soup":                         "low-sodium",
		"sodium-free":                             "sodium-free",
		"No Salt Added. Not a sodium free food.":  "no-salt-added",
		"Unsalted, not a low sodium food":         "no-salt-added",
		"25% less sodium than our regular":        "reduced-sodium",
		"lightly salted":                          "lightly-salted",
		"light in sodium":                         "light-sodium",
		"No Sugar Added":                          "no-added-sugar",
		"unsweetened applesauce, no added sugars": "no-added-sugar unsweetened",
		"Sugar Free!":                             "sugar-free",
		"reduced sugar and low sodium":            "low-sodium reduced-sugar",
		"low sugar":                               "low-sugar",
		"sin sal añadida":                         "no-salt-added",
		"Sodium 140 mg, sugar 5 g":                "",
		"":                                        "",
	} {
		var ids []string
		for _, c := range FindClaims(text) {
			ids = append(ids, c.ID)
			if c.Line().ID != "claim."+c.ID || c.Source == "" {
				t.Errorf("%s: %v, source %q", c.ID, c.Line(), c.Source)
			}
		}
		if got := strings.Join(ids, " "); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	if len(AllClaims()) != len(claimRows) {
		t.Error("AllClaims must list every row")
	}
}
