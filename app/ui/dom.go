package ui

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// at are an element's attributes: name, value, name, value, and so on. Values
// are strings or bools. go-app drops an empty one.
type at []any

// press makes an element send the message Press{do, arg} when it is pressed.
// Without an arg of its own it is that of the nearest element around it that
// has one.
func press(do, arg string) at { return at{"data-do", do, "data-arg", arg} }

// types makes an input send Typed{field, text} when its content changes, and
// gives it an id that labels and focus find it by.
func types(field string) at { return at{"data-in", field, "id", inputID(field)} }

// inputID is the element id of the input for a field.
func inputID(field string) string { return "in-" + field }

// el makes an element. The name may carry classes, "p.note.quiet". Parts are
// attributes (at), text (string), elements, slices of elements, and nil for a
// part that is not there. All elements are of one Go type, so that the linker
// leaves go-app's hundred others out of the page.
func el(name string, parts ...any) app.UI { return element("", name, parts) }

// svg makes an element of a drawing.
func svg(name string, parts ...any) app.UI {
	return element("http://www.w3.org/2000/svg", name, parts)
}

func element(space, name string, parts []any) app.UI {
	tag, classes, _ := strings.Cut(name, ".")
	attrs := make(at, 0, 8)
	if classes != "" {
		attrs = append(attrs, "class", strings.ReplaceAll(classes, ".", " "))
	}
	var body []app.UI
	for _, p := range parts {
		switch p := p.(type) {
		case nil:
		case at:
			attrs = append(attrs, p...)
		case string:
			if p != "" {
				body = append(body, app.Text(p))
			}
		case []app.UI:
			body = append(body, p...)
		case app.UI:
			body = append(body, p)
		}
	}
	if tag == "input" {
		e := app.ElemSelfClosing(tag)
		for i := 0; i+1 < len(attrs); i += 2 {
			e.Attr(attrs[i].(string), attrs[i+1])
		}
		return e
	}
	e := app.Elem(tag).XMLNS(space)
	for i := 0; i+1 < len(attrs); i += 2 {
		e.Attr(attrs[i].(string), attrs[i+1])
	}
	return e.Body(body...)
}

// when gives the part if it is wanted, else nothing.
func when(wanted bool, part func() app.UI) app.UI {
	if !wanted {
		return nil
	}
	return part()
}

// each makes a list of one thing for each of xs, mostly elements.
func each[T, R any](xs []T, f func(i int, x T) R) []R {
	list := make([]R, 0, len(xs))
	for i, x := range xs {
		list = append(list, f(i, x))
	}
	return list
}
