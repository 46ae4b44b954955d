package amount_test

import (
	"fmt"

	"cupsum/core/amount"
)

func ExampleRead() {
	for _, text := range []string{"2 1/4 cups", "about 2.5", "0.333 cup", "2 to 3 oz"} {
		r, err := amount.Read(text)
		fmt.Println(r.Quantity, err)
	}
	// Output:
	// 9/4 cup <nil>
	// 9/4..5/2..11/4 <nil>
	// 1/3 cup <nil>
	// 2..5/2..3 oz <nil>
}

func ExampleRead_refused() {
	_, err := amount.Read("3 meters")
	fmt.Println(err) // an id and its arguments; app/lang has the sentence
	// Output: amount.unit(meters)
}

func ExampleNum() {
	// Never 1.4985.
	fmt.Println(amount.Frac(9, 2).Mul(amount.Frac(1, 3)))
	// Output: 3/2
}

func ExampleMixed() {
	p := amount.Mixed(amount.Frac(9, 4))
	fmt.Println(p.Text, p.Rounded)
	p = amount.Mixed(amount.Frac(11, 5))
	fmt.Println(p.Text, p.Rounded)
	// Output:
	// 2¼ false
	// 2¼ true
}

func ExampleQuantity_In() {
	half := amount.Quantity{Amount: amount.Exactly(amount.Frac(1, 2)), Unit: amount.Cup}
	label, _ := half.In(amount.Ml, amount.Label)
	kitchen, _ := half.In(amount.Ml, amount.Customary)
	text, _ := amount.Decimal(kitchen.Amount.Best, 1)
	fmt.Println(label, "on a label,", text, "ml in the kitchen")
	// Output: 120 ml on a label, 118.3 ml in the kitchen
}

func ExampleAmount_Add() {
	fist := amount.Between(amount.Frac(3, 4), amount.Int(1), amount.Frac(5, 4))
	fmt.Println(fist.Add(amount.Exactly(amount.Frac(1, 2))))
	// Output: 5/4..3/2..7/4
}
