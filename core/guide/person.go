package guide

// A Sex is the column of the calorie table.
type Sex uint8

const (
	NoSex Sex = iota
	Female
	Male
)

// PatternOwn is the pattern of a programme's own set.
const PatternOwn = "own"

// calorieRow is a row of data/calories.csv: kcal a day by activity.
type calorieRow struct {
	sex      Sex
	from, to uint8
	kcal     [3]int16
}
