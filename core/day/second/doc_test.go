// Package second_test counts days a second time, to hold package day against.
//
// It exists because a program's own tests share its misunderstandings. This
// one was written from the rule texts (core/rule/data), the tables (CSV, which
// it reads for itself) and the doc comments of the types alone, without the
// code that it checks; it is plain and slow, does all arithmetic in big.Rat,
// and works from the numbers that a random day was made of and not from the
// texts that the program reads. Amounts become amount.Num at the comparison
// only.
//
// What the texts leave open is written down where it is decided, with the word
// "Reading:"; where the program was found to differ, it is in the list of
// known differences and not bent into the arithmetic.
package second_test
