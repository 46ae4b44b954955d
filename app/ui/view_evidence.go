package ui

import (
	"strconv"

	"cupsum/core/evidence"
	"cupsum/core/rule"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// evidence lists every rule and table with where it comes from.
func (v *view) evidence() app.UI {
	label := "evidence.open"
	if v.Evidence {
		label = "evidence.close"
	}
	return el("div",
		v.evidenceHead(),
		el("div.row", el("button.plain", at{"type", "button", "aria-expanded", strconv.FormatBool(v.Evidence)}, press("evidence", ""), v.t(label))),
		el("div.slot", when(v.Evidence, v.evidenceList)),
	)
}

func (v *view) evidenceHead() []app.UI {
	return []app.UI{
		el("h1", at{"id", "evidence-title", "tabindex", "-1"}, v.t("evidence.title")),
		el("p", v.t("evidence.how")),
		el("ul.quiet.origins",
			el("li", v.origin(rule.Published), " ", v.t("evidence.published")),
			el("li", v.origin(rule.Practice), " ", v.t("evidence.practice")),
			el("li", v.origin(rule.Memory), " ", v.t("evidence.memory"))),
	}
}

func (v *view) evidenceList() app.UI {
	return el("div",
		el("h2", v.t("evidence.rules", len(rule.Rules))),
		el("dl.rules", each(rule.Rules, func(_ int, r rule.Rule) app.UI {
			return el("div", el("dt", at{"id", "rule-" + string(r.ID), "tabindex", "-1"}, v.w.Term(r.Name())),
				el("dd", el("p", v.w.Term(r.Says())), v.source(r.Source, r.Origin), v.checks(rule.ChecksOf(r.ID))))
		})),
		el("h2", v.t("evidence.tables")),
		each(evidence.Tables(), func(_ int, t rule.TableInfo) app.UI {
			return details("table", v.t("evidence.table", t.Name, t.Rows),
				el("ul", each(t.Sources, func(_ int, s rule.SourceCount) app.UI {
					return el("li", v.t("evidence.rows", s.Rows), " ", v.source(s.Source, s.Origin))
				})), v.checks(rule.ChecksOfTable(t.Name)))
		}),
	)
}

// checks lists the tests that hold a rule or a table.
func (v *view) checks(list []rule.Check) app.UI {
	return details("checks", v.t("evidence.checks", len(list)), el("ul", each(list, func(_ int, c rule.Check) app.UI {
		return el("li", v.t("evidence.check", c.Says(), c.Source), " ", el("code", c.Test))
	})))
}
