package day

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"unicode/utf8"

	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// The day file is JSON: {"format": "cupsum-day", "version": 1} and the fields
// of [Sheet]. DEVELOPERS.md documents it.
const (
	FileFormat  = "cupsum-day"
	FileVersion = 1

	MaxFile     = 4 << 20 // bytes of a day file that are read
	MaxPortions = 10_000  // portions of a day
	maxText     = 2_000   // characters of any text in it
)

// file is a day file: a sheet behind its format and version.
type file struct {
	Format  string          `json:"format"`
	Version int             `json:"version"`
	OwnSet  json.RawMessage `json:"ownSet,omitempty"` // a programme's own targets, as guide.ReadSet reads them
	Sheet
}

// Write makes the day file of a sheet.
func (s Sheet) Write() []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if s.Portions == nil {
		s.Portions = []portion.Portion{}
	}
	f := file{Format: FileFormat, Version: FileVersion, Sheet: s}
	if s.Own != nil {
		f.OwnSet = s.Own.JSON()
	}
	if err := enc.Encode(f); err != nil {
		panic(err) // strings, bools and slices of them always encode
	}
	return b.Bytes()
}

// Read reads a day file. What is wrong with the file as a whole is an error, a
// [*say.Problem], and no sheet. What is wrong with one portion leaves that
// portion in the sheet, where [Check] says what it is, and does no harm to the
// others. notes tell what was mended on the way in: ids that stood twice,
// texts that were cut.
func Read(data []byte) (s Sheet, notes []say.Line, err error) {
	if len(data) > MaxFile {
		return Sheet{}, nil, say.Wrong("day.too-large", MaxFile>>20)
	}
	f, err := decode(data)
	if err != nil {
		return Sheet{}, nil, err
	}
	if len(f.Portions) > MaxPortions {
		return Sheet{}, nil, say.Wrong("day.too-many", len(f.Portions), MaxPortions)
	}
	s = f.Sheet
	if len(f.OwnSet) > 0 {
		own, err := guide.ReadSet(f.OwnSet)
		if p, ok := err.(*say.Problem); ok {
			notes = append(notes, say.New("day.own-set", p.Line))
		} else if err == nil {
			s.Own = &own
		}
	}
	if twice := s.mendIDs(); twice > 0 {
		notes = append(notes, say.New("day.ids-twice", twice))
	}
	if cut := s.cutTexts(); cut > 0 {
		notes = append(notes, say.New("day.texts-cut", cut, maxText))
	}
	return s, notes, nil
}

func decode(data []byte) (file, error) {
	var head struct {
		Format  *string          `json:"format"`
		Version *json.RawMessage `json:"version"`
	}
	if !utf8.Valid(data) || len(bytes.TrimSpace(data)) == 0 {
		return file{}, say.Wrong("day.not-json")
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return file{}, jsonProblem(data, err)
	}
	if head.Format == nil || *head.Format != FileFormat {
		return file{}, say.Wrong("day.not-a-day")
	}
	if head.Version == nil || string(*head.Version) != strconv.Itoa(FileVersion) {
		version := "?"
		if head.Version != nil {
			version = say.Clip(string(*head.Version), 20)
		}
		return file{}, say.Wrong("day.version", version, FileVersion)
	}
	var f file
	if err := json.Unmarshal(data, &f); err != nil {
		return file{}, jsonProblem(data, err)
	}
	return f, nil
}

// jsonProblem says where a file stops being a day file.
func jsonProblem(data []byte, err error) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax) && syntax.Offset >= int64(len(data)), errors.Is(err, io.ErrUnexpectedEOF):
		return say.Wrong("day.cut-off")
	case errors.As(err, &syntax):
		return say.Wrong("day.not-json-at", 1+bytes.Count(data[:syntax.Offset], []byte("\n")))
	case errors.As(err, &kind):
		return say.Wrong("day.field", say.Clip(kind.Field, 60), 1+bytes.Count(data[:min(kind.Offset, int64(len(data)))], []byte("\n")))
	}
	return say.Wrong("day.not-json")
}

// mendIDs gives portions without an id, or with one that stands already, a
// fresh one, and tells how many stood twice.
func (s *Sheet) mendIDs() (twice int) {
	seen := make(map[string]bool, len(s.Portions))
	for _, p := range s.Portions {
		seen[p.ID] = true
	}
	used := make(map[string]bool, len(s.Portions))
	next := 1
	for i := range s.Portions {
		p := &s.Portions[i]
		if p.ID != "" && !used[p.ID] {
			used[p.ID] = true
			continue
		}
		if p.ID != "" {
			twice++
		}
		for seen[FreshID(next)] {
			next++
		}
		p.ID = FreshID(next)
		seen[p.ID], used[p.ID] = true, true
	}
	return twice
}

// FreshID is the nth id that a sheet gives by itself: "p1", "p2".
func FreshID(n int) string { return "p" + strconv.Itoa(n) }

// cutTexts cuts texts that no person typed, and tells how many.
func (s *Sheet) cutTexts() (cut int) {
	trim := func(t *string, limit int) {
		if c := say.Clip(*t, limit); c != *t {
			*t = c
			cut++
		}
	}
	trim(&s.Title, maxText)
	for i := range s.Portions {
		p := &s.Portions[i]
		trim(&p.Note, portion.MaxNote)
		for _, t := range []*string{&p.ID, &p.Food, &p.Form, &p.Measure.Amount, &p.Measure.Unit, &p.Measure.Hand, &p.Measure.Piece,
			&p.Measure.Servings, &p.Measure.Size, &p.Measure.Net, &p.Measure.Eaten, &p.Measure.EatenBy} {
			trim(t, maxText)
		}
	}
	return cut
}
