//go:build e2e

package e2e

import "errors"

func startFirefox(profile string) (Browser, error) { return nil, errors.New("todo") }
func startWebKit(profile string) (Browser, error)  { return nil, errors.New("todo") }
