// Package label reads a Nutrition Facts label: the serving size, the servings
// per container, the net weight, sodium and sugars, the packing medium and the
// claims, typed field by field or pasted as text.
//
// # Laws
//
// What is printed is kept apart from what follows from it. A reader returns
// what the text says; what it means in cups is a second function that takes
// the food's weight per cup and shows its working.
//
// Nothing is misread in silence. What isn't a size is refused with a
// [say.Problem]; what contradicts itself is returned with a line in Flags.
//
// A label's cup is 240 mL, its ounce 28 g ([amount.Label]); the net weight on
// the front is in real ounces ([amount.Customary]).
package label
