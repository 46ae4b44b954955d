# A script runner: each target is one idea. `make` alone lists them.
GO ?= go
STATICCHECK = honnef.co/go/tools/cmd/staticcheck@v0.8.2
LINTER = .cache/staticcheck-v0.8.2/staticcheck
NODE_EXEC = $(shell $(GO) env GOROOT)/lib/wasm/go_js_wasm_exec
# Longest first visit, all files together, gzipped: 0.9 of the 1,910,224 bytes of
# a go-app hello page whose two doors are apart (see make bench).
BUDGET = 1719000

.PHONY: help run site test unit lint tables tables-check wasm-test oracles fuzz e2e bench bench-core size tools browsers

help: ## list the targets
	@grep -E '^[a-z-]+:.*##' Makefile | sed -E 's/:[^#]*## /\t/' | expand -t 14

run: ## build the page and serve it on this machine
	$(GO) run ./app serve

site: ## write the page's files to out/
	$(GO) run ./app build -out out -budget $(BUDGET)

test: tools lint tables-check unit wasm-test oracles fuzz site e2e ## everything that CI runs

unit: ## Go tests, natively
	$(GO) test ./...

lint: ## formatting, vet, staticcheck
	@unformatted=$$(gofmt -l app core web); test -z "$$unformatted" || { echo "not formatted: $$unformatted"; exit 1; }
	$(GO) vet ./...
	$(GO) vet -tags e2e ./app/e2e
	GOOS=js GOARCH=wasm $(GO) vet ./app ./app/browser/... ./app/ui/... ./app/lang/... ./app/e2e/probe
	@test -x $(LINTER) || GOBIN=$(CURDIR)/$(dir $(LINTER)) $(GO) install $(STATICCHECK)
	$(LINTER) -tags e2e ./...
	GOOS=js GOARCH=wasm $(LINTER) ./app ./app/browser/... ./app/ui/... ./app/e2e/probe

tables: ## pack the tables of data/ into z*.go
	$(GO) run ./core/tables

tables-check: ## the packed tables are those of data/
	@before=$$(cat $$(git ls-files '*/z*.go') | cksum); $(GO) run ./core/tables; \
	after=$$(cat $$(git ls-files '*/z*.go') | cksum); \
	test "$$before" = "$$after" || { echo "z*.go were out of step with data/; now they are not: commit them"; exit 1; }

# The same tests as WebAssembly under Node, with the same output but for times.
# The generator stays out: it runs on a machine, never in the page.
CORE = $(shell $(GO) list ./core/... | grep -v core/tables)
wasm-test: ## core's tests as WebAssembly under Node, with identical output
	@mkdir -p .cache
	@$(GO) test -count=1 -v $(CORE) | grep -v '^?' | sed -E 's/[(]?[0-9.]+m?s[)]?$$//' > .cache/native.txt || { cat .cache/native.txt; exit 1; }
	@GOOS=js GOARCH=wasm $(GO) test -count=1 -v -exec=$(NODE_EXEC) $(CORE) | grep -v '^?' | sed -E 's/[(]?[0-9.]+m?s[)]?$$//' > .cache/wasm.txt || { cat .cache/wasm.txt; exit 1; }
	@! grep -E '^(--- FAIL|FAIL)' .cache/native.txt .cache/wasm.txt
	@diff .cache/native.txt .cache/wasm.txt && grep -c '^--- PASS' .cache/wasm.txt | sed 's/$$/ tests of core pass natively and as WebAssembly, with the same output/'

oracles: ## amounts and units against independent libraries under Node
	cd testdata/oracles && npm ci --silent --ignore-scripts
	$(GO) test -count=1 -tags oracles -run Oracles -v ./core/amount

fuzz: ## each fuzz target for a few seconds
	@for dir in $$(grep -rl --include='*_test.go' '^func Fuzz' app core | xargs -n1 dirname | sort -u); do \
	  for target in $$(grep -ho '^func Fuzz[A-Za-z0-9]*' $$dir/*_test.go | sed 's/func //'); do \
	    $(GO) test -run '^$$' -fuzz "^$$target\$$" -fuzztime $${FUZZTIME:-3s} ./$$dir || exit 1; \
	  done; done

e2e: browsers ## the page in real browsers (ENGINE=firefox: in one)
	cd app/e2e && npm ci --silent
	$(GO) test -count=1 -timeout 20m -tags e2e ./app/e2e

bench: browsers ## what a visit costs, beside a stock go-app hello page
	$(GO) test -count=1 -timeout 20m -tags e2e -run '^$$' -bench . -benchtime 1x ./app/e2e

bench-core: ## how long crediting and checking take
	$(GO) test -run '^$$' -bench . ./core/...

size: ## where the program's bytes are, package by package
	$(GO) run ./app size

tools: ## install Node and npm where missing (Debian, as root)
	@sh app/e2e/install.sh nodejs npm

browsers: tools ## install the three browsers where missing (Debian, as root)
	@sh app/e2e/install.sh chromium firefox-esr webkit2gtk-driver xvfb
