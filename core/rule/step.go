package rule

import "cupsum/core/say"

// A Step is one line of working: what was done, in a sentence, and the rule
// that says so.
type Step struct {
	Rule ID
	Line say.Line
}
