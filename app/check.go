//go:build !wasm

package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"

	"cupsum/app/lang"
	"cupsum/app/report"
	"cupsum/core/day"
)

// check prints for exported day files what the page would show. A file that
// can't be read doesn't stop the others. The exit status is 0 when all was
// read, 1 when a file or a portion could not be, 2 when the call was wrong.
func check(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("check", flag.ContinueOnError)
	flags.SetOutput(errs)
	asJSON := flags.Bool("json", false, "print JSON")
	if flags.Parse(args) != nil {
		return 2
	}
	if flags.NArg() == 0 {
		fmt.Fprintln(errs, "check needs at least one day file, as exported from the page")
		return 2
	}
	words := lang.English()
	status := 0
	var checks []report.Check
	for _, name := range flags.Args() {
		c := checkFile(words, name)
		if c.Failed() {
			status = 1
		}
		checks = append(checks, c)
	}
	if *asJSON {
		data, err := report.Encode(checks)
		if err != nil {
			return tell(err, errs)
		}
		fmt.Fprintln(out, string(data))
		return status
	}
	for i, c := range checks {
		if i > 0 {
			fmt.Fprintln(out)
		}
		fmt.Fprint(out, report.Plain(words, c))
	}
	return status
}

func checkFile(words *lang.Words, name string) report.Check {
	data, err := readLimited(name)
	var c report.Check
	if err == nil {
		var sheet day.Sheet
		sheet, notes, readErr := day.Read(data)
		if err = readErr; err == nil {
			c = report.Make(words, sheet, notes)
		}
	}
	if err != nil {
		c = report.Refused(words, err)
	}
	c.File = name
	return c
}

// readLimited reads a file up to one byte more than a day file may have, so
// that a giant one is refused by its size and not held in memory.
func readLimited(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var b bytes.Buffer
	if _, err := io.Copy(&b, io.LimitReader(f, day.MaxFile+1)); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
