# make demo    build, compare the demo site, say where the report is
# make test    everything that must hold
# make bench   the benchmarks;  make fuzz   every fuzz target, FUZZTIME each
# make setup   put the chart script in place;  make build   bin/arrayodds
# make picture the README's picture of the report (needs chromium)
# make clean   remove what the others made

SITE     = testdata/saltmarsh.toml
DEMO     = build/demo
SCRIPT   = charts/script/dist/echarts.min.js
FUZZTIME = 20000x

.PHONY: all setup build demo picture test bench fuzz clean

all: build

setup: $(SCRIPT)

# Only the files of the package are wanted, so nothing of it is run.
$(SCRIPT): charts/script/package.json charts/script/package-lock.json
	@command -v npm >/dev/null || { echo "npm is needed to fetch the chart script (Debian: apt-get install npm)" >&2; exit 1; }
	cd charts/script && npm ci --ignore-scripts --no-audit --no-fund
	cp charts/script/node_modules/echarts/dist/echarts.min.js $@

build: setup
	go build -o bin/arrayodds ./cmd/arrayodds

demo: build
	@mkdir -p $(DEMO)
	bin/arrayodds compare $(SITE) --html $(DEMO)/report.html --json $(DEMO)/report.json --csv $(DEMO)/report.csv --xlsx $(DEMO)/report.xlsx
	@echo
	@echo "The report is $(CURDIR)/$(DEMO)/report.html: open it in a browser."

picture: demo
	chromium --headless --no-sandbox --disable-gpu --no-first-run --disable-background-networking \
		--hide-scrollbars --user-data-dir=build/chromium --window-size=1100,2120 --virtual-time-budget=4000 \
		--screenshot=testdata/report.png file://$(CURDIR)/$(DEMO)/report.html 2>/dev/null

# Without npm the pages are tested as they are without charts.
test:
	@if command -v npm >/dev/null; then $(MAKE) --no-print-directory setup; else echo "no npm: the chart script is left out"; fi
	@unformatted=$$(gofmt -l array charts cmd sim) && if [ -n "$$unformatted" ]; then echo "gofmt these:" $$unformatted >&2; exit 1; fi
	go vet ./...
	go test ./...

bench:
	go test -run '^$$' -bench . -benchmem ./...

fuzz:
	@set -e; go list ./... | while read -r package; do \
		go test -list '^Fuzz' $$package | { grep '^Fuzz' || true; } | while read -r target; do \
			echo "$$package $$target"; \
			go test -run '^$$' -fuzz "^$$target$$" -fuzztime $(FUZZTIME) $$package; \
		done; \
	done

clean:
	rm -rf bin build $(SCRIPT) charts/script/node_modules
