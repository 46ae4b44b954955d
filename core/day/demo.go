package day

import _ "embed"

//go:embed data/demo.json
var demo []byte

// Demo returns the sample day of the invented class, marked as a sample.
func Demo() Sheet {
	s, _, err := Read(demo)
	if err != nil {
		panic(err) // a test reads it
	}
	return s
}
