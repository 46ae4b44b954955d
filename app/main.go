//go:build !wasm

// Command app is Cupsum's machine side: it builds the page, serves it, and does
// at the keyboard what the page does in a browser. The page itself is
// main_wasm.go.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"regexp"
	"slices"

	"cupsum/app/lang"
	"cupsum/app/site"
	"cupsum/app/ui"
)

// command is one way to use the program. run gets the words after the command's
// name and returns the exit status.
type command struct {
	name, arguments, help string
	run                   func(args []string, out, errs io.Writer) int
}

// commands in the order in which help lists them.
var commands = []command{
	{"serve", "[-port N]", "build the page and serve it on this machine", serve},
	{"build", "-out DIR", "write the page's files, for any static host", build},
	{"check", "[-json] FILE...", "print for exported day files what the page shows", check},
	{"size", "", "print where the bytes of the page's program are", size},
}

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

func run(args []string, out, errs io.Writer) int {
	if len(args) > 0 {
		i := slices.IndexFunc(commands, func(c command) bool { return c.name == args[0] })
		if i >= 0 {
			return commands[i].run(args[1:], out, errs)
		}
		fmt.Fprintf(errs, "there is no command %q\n", args[0])
	}
	for _, c := range commands {
		fmt.Fprintf(errs, "  go run ./app %s %-16s %s\n", c.name, c.arguments, c.help)
	}
	return 2
}

// origins keeps what goes into the page's policy to one plain source.
var origins = regexp.MustCompile(`^https?://[a-zA-Z0-9.-]+(:[0-9]+)?$`)

func build(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("build", flag.ContinueOnError)
	flags.SetOutput(errs)
	dir := flags.String("out", "", "folder for the files")
	origin := flags.String("origin", "", "`address` of the host, like https://example.org: lets Safari run the page in sandboxed frames")
	budget := flags.Int("budget", 0, "fail when a first visit takes more `bytes`, gzipped")
	if flags.Parse(args) != nil {
		return 2
	}
	if *origin != "" && !origins.MatchString(*origin) {
		fmt.Fprintln(errs, "-origin is a scheme and a host, like https://example.org")
		return 2
	}
	if *dir == "" || flags.NArg() > 0 {
		fmt.Fprintln(errs, "build needs -out DIR, and nothing but flags")
		return 2
	}
	o := options(*dir, out)
	o.Budget, o.Origin = *budget, *origin
	return tell(site.Build(o), errs)
}

func size(args []string, out, errs io.Writer) int { return tell(site.Sizes(out), errs) }

func serve(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(errs)
	port := flags.Int("port", 8080, "port on this machine; 0 takes any free one")
	if flags.Parse(args) != nil {
		return 2
	}
	dir, err := os.MkdirTemp("", "cupsum-site-")
	if err != nil {
		return tell(err, errs)
	}
	defer os.RemoveAll(dir)
	if err = site.Build(options(dir, out)); err == nil {
		until, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		err = site.Serve(until, dir, *port, out)
	}
	return tell(err, errs)
}

func options(dir string, log io.Writer) site.Options {
	words := lang.English()
	return site.Options{Dir: dir, Words: words, Static: ui.Static(), Log: log, Pages: []site.Page{
		{File: "evidence.html", Title: words.Text("evidence.title"), Description: words.Text("evidence.how"), Body: ui.Evidence()},
	}}
}

// tell prints an error, if there is one, and returns the exit status.
func tell(err error, errs io.Writer) int {
	if err == nil {
		return 0
	}
	fmt.Fprintln(errs, err)
	return 1
}
