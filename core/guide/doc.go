// Package guide holds what the guidelines say: for each edition what one cup,
// ounce or serving of a class of food is, the target sets, the calorie table,
// the hand measures and the cautions. All of it is tables with sources
// (data/*.csv), packed into literals by core/tables.
//
// # What the tables say, and what is our reading
//
// A row is published where its source was read, practice where the trade does
// it so without one, and memory where it was recalled. Three readings are ours:
//
//   - The refined grains of a pattern are an upper end, its whole grains a
//     lower one (rule refined-limit).
//   - Where the 2025-2030 edition does not say what a serving is, the food is
//     counted as in 2020-2025 (rule carried-over). Its grain group is whole
//     grains alone: those rows hold for that subgroup.
//   - A hand's range is a third either way, more where handouts disagree, and
//     a quarter once the hand is measured (rules hand-common, hand-own).
//
// # A programme's own targets
//
// [ReadSet] reads a JSON file of at most 64 kB, [Set.JSON] writes one:
//
//		{
//		  "format": "cupsum-targets",
//		  "version": 1,
//		  "id": "tuesday-class",
//		  "name": "Tuesday class, Quillhaven branch library",
//		  "edition": "dga-2020",
//		  "source": "agreed in class",
//		  "level": 1800,
//		  "targets": [
//		    {"group": "fruit", "low": "1 1/2"},
//		    {"group": "vegetable", "subgroup": "dark-green", "low": "1 1/2", "period": "week"},
//		    {"group": "grain", "subgroup": "refined", "high": 3, "unit": "oz-eq", "period": "day"}
//		  ]
//		}
//
//	  - format and version are as shown.
//	  - id: small letters, digits and hyphens, at most 40, not one of [Sets].
//	  - name: one line of at most 80 characters; source: of at most 200.
//	  - edition: dga-2020 or dga-2025, whose equivalents the targets are in.
//	  - level: whole calories, 600 to 4000; may be left out.
//	  - targets: 1 to 60. group is fruit, vegetable, grain, protein, dairy or
//	    oil; subgroup, if any, a key of that group. low is at least, high at
//	    most; one of them is needed. Amounts are numbers or texts as people type
//	    them, above 0 and at most 30 a day (200 g of oil). unit is the edition's
//	    own and may be left out: cup-eq, oz-eq for grain and protein, g-oil for
//	    oil, serving for all of dga-2025. period is day, if left out, or week.
//
// Other names, a name given twice and text with control characters are
// refused: a misspelt "hihg" must not pass for a target without upper end.
package guide
