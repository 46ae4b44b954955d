// Package amount is exact arithmetic for kitchens: rational numbers, ranges
// with a best guess inside, and the units that food is measured in.
//
// # Laws
//
// Numbers are exact. Nothing is rounded but by a function whose name says
// Round or that prints, and printing reports whether it rounded.
//
// The zero Num is 0 and the zero Amount is exactly 0; both are ready to use.
// Values are never changed in place and may be copied freely.
//
// Unknown is not zero: what can't be read is an error, never a 0.
//
// Two unit systems are kept apart and named: [Customary], as NIST defines it,
// and [Label], the equivalents that nutrition labels must use.
package amount
