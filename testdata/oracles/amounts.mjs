// Answers the cases that core/amount's oracle test sends on standard input with
// three independent libraries, so that the two can be compared. Run by
// go test -tags oracles ./core/amount, never by the program.
import { readFileSync } from 'node:fs';
import Fraction from 'fraction.js';
import { numericQuantity } from 'numeric-quantity';
import convert from 'convert-units';

const cases = JSON.parse(readFileSync(0, 'utf8'));

// Sums of fractions, exact: "7/4".
const arithmetic = cases.arithmetic.map(({ op, x, y }) => {
  const a = new Fraction(x), b = new Fraction(y);
  switch (op) {
    case 'add': return a.add(b).toFraction();
    case 'sub': return a.sub(b).toFraction();
    case 'mul': return a.mul(b).toFraction();
    case 'quo': return a.div(b).toFraction();
    case 'cmp': return String(a.compare(b) < 0 ? -1 : a.compare(b) > 0 ? 1 : 0);
    case 'floor': return a.div(b).floor().mul(b).toFraction();
  }
  throw new Error('unknown operation ' + op);
});

// Numbers as people write them. null: it is no number.
const texts = cases.texts.map((t) => {
  const n = numericQuantity(t, { round: false });
  return Number.isNaN(n) ? null : n;
});

// One of a unit in another. Its cup, spoons and fluid ounce are US customary;
// it knows no label cup of 240 mL.
const units = cases.units.map(({ from, to }) => convert(1).from(from).to(to));

process.stdout.write(JSON.stringify({ arithmetic, texts, units }));
