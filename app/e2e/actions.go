//go:build e2e

package e2e

import (
	"fmt"
	"strings"
)

// What WebDriver and WebDriver BiDi both call actions: sequences of an input
// device's single steps.

func sequence(kind, id string, steps []map[string]any) map[string]any {
	s := map[string]any{"type": kind, "id": id, "actions": steps}
	if kind == "pointer" {
		s["parameters"] = map[string]any{"pointerType": "mouse"}
	}
	return s
}

func clickActions(x, y float64) map[string]any {
	return sequence("pointer", "mouse", []map[string]any{
		{"type": "pointerMove", "x": int(x), "y": int(y), "duration": 0},
		{"type": "pointerDown", "button": 0},
		{"type": "pointerUp", "button": 0},
	})
}

func textActions(text string) map[string]any {
	var steps []map[string]any
	for _, c := range text {
		steps = append(steps, map[string]any{"type": "keyDown", "value": string(c)}, map[string]any{"type": "keyUp", "value": string(c)})
	}
	return sequence("key", "keyboard", steps)
}

// webdriverKeys are the code points that stand for keys without a character:
// WebDriver, section 17.4.2.
var webdriverKeys = map[string]string{
	"Tab": "\ue004", "Enter": "\ue007", "Escape": "\ue00c", "Backspace": "\ue003", "Delete": "\ue017",
	"ArrowUp": "\ue013", "ArrowDown": "\ue015", "ArrowLeft": "\ue012", "ArrowRight": "\ue014",
	"Home": "\ue011", "End": "\ue010", "Space": " ", "Shift": "\ue008", "Control": "\ue009",
}

func keyActions(key string) (map[string]any, error) {
	var down, up []map[string]any
	parts := strings.Split(key, "+")
	for _, part := range parts {
		value := webdriverKeys[part]
		if value == "" {
			if len([]rune(part)) != 1 {
				return nil, fmt.Errorf("no key %q", key)
			}
			value = part
		}
		down = append(down, map[string]any{"type": "keyDown", "value": value})
		up = append([]map[string]any{{"type": "keyUp", "value": value}}, up...)
	}
	return sequence("key", "keyboard", append(down, up...)), nil
}
