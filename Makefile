# make demo    build, compare the demo site, say where the report is
# make test    everything that must hold, a part of what takes long;  make short  fewer seeds, no browser, in seconds
# make thorough  the whole of what make test takes a part of: make test THOROUGH=1; PACKAGES=./sim/... of some
# make race    the packages that start goroutines, under the race detector
# make lint    format, vet, static checks, dead code, builds for other systems
# make digits  the same digits natively and in WebAssembly (needs node)
# make browsers  the desk in Firefox and WebKitGTK too, which must be there
# make faults  every fault on every command, every hostile input, every sheet printed
# make slurm   the array script, on a Slurm cluster of one node (as root, with slurm-wlm and munge)
# make soak    new sites, commands and faults for SOAK=10m or as long as you like; SEED= names the first
# make walk    the first hour of DEVELOPERS.md, taken in a copy
# make bench   the benchmarks;  make fuzz   every fuzz target, FUZZTIME each
# make calibrate  the intervals and samples of which make thorough takes a part, over all settings and seeds, half an hour
# make setup   put the chart script in place;  make build   bin/arrayodds
# make engine  the desk's engine: cmd/desk as WebAssembly, put in place for the build
# make browser find a browser for the tests (CHROME= names one), get one where there is none
# make picture the README's picture of the report
# make release, reproduce, tryrelease  binaries to hand on (cmd/release/release.mk)
# make clean   remove what the others made

# Nothing needs C but the race detector. Without it test binaries are linked in a tenth less
# time, and are the same where there is no C compiler.
export CGO_ENABLED = 0

SITE     = testdata/saltmarsh.toml
DEMO     = build/demo
SCRIPT   = charts/script/dist/echarts.min.js
LOCK     = charts/script/dist/package-lock.json
AXE      = charts/headless/axe/dist/axe.min.js
ENGINE   = cmd/arrayodds/desk/dist/engine.wasm.gz
LICENCES = cmd/arrayodds/licences/dist/licences.json.gz
FUZZTIME = 20000x
TIMEOUT  = 20m
SOAK     = 10m
PACKAGES = ./...

# Test binaries without symbols for a debugger take half the time to link; make lint vets.
TESTS    = go test -vet=off -ldflags="-s -w" -timeout $(TIMEOUT)

# The most that the packed engine may have, in bytes: a third more as text in a page.
LARGEST  = 4750000

# Everything builds for these, and for js/wasm all but what starts browsers.
SYSTEMS  = linux/386 windows/amd64 darwin/arm64

# Tests alone call what is in here.
FORTESTS = (array/(hostile|thorough)|charts/(headless|chartstest)|cmd/arrayodds/export/schematest|sim/simtest|sim/exact/spares)

.PHONY: all setup engine licences browser build demo picture test thorough short race lint digits browsers faults slurm soak walk bench calibrate fuzz clean

all: build

setup: $(SCRIPT)

# Only the files of the package are wanted, so nothing of it is run.
$(LOCK): charts/script/package.json charts/script/package-lock.json
	@command -v npm >/dev/null || { echo "npm is needed to fetch the chart script (Debian: apt-get install npm)" >&2; exit 1; }
	cd charts/script && npm ci --ignore-scripts --no-audit --no-fund
	@cd charts/script && rm -rf dist/licences && for package in echarts zrender tslib; do \
		mkdir -p dist/licences/$$package && cp node_modules/$$package/LICENSE* dist/licences/$$package/ || exit 1; done
	cd charts/script/node_modules/echarts && cp NOTICE licenses/* ../../dist/licences/echarts/
	cp charts/script/package-lock.json $@

$(SCRIPT): $(LOCK)
	cp charts/script/node_modules/echarts/dist/echarts.min.js $@

# Templates find methods by their names, for which the linker keeps every method of
# every type, most of them never called: the engine's templates call none, and are
# linked without (see cmd/desk/overlay). Its page must stay small enough to mail.
SOURCES := $(shell find array charts cmd/arrayodds/export cmd/arrayodds/flags cmd/desk sim -type f -not -path '*/node_modules/*' -not -path '*/dist/*' -not -path '*/testdata/*' -not -name '*_test.go' 2>/dev/null) go.mod go.sum

engine: $(ENGINE)

$(ENGINE): $(SCRIPT) $(SOURCES)
	@mkdir -p build/_overlay
	go run ./cmd/desk/overlay build/_overlay
	GOOS=js GOARCH=wasm go build -trimpath -buildvcs=false -overlay build/_overlay/overlay.json -ldflags="-s -w" -o build/engine.wasm ./cmd/desk
	gzip -9nc build/engine.wasm >build/engine.wasm.gz
	@size=$$(wc -c <build/engine.wasm.gz); test $$size -le $(LARGEST) || { echo "the engine has $$size bytes packed; right would be at most $(LARGEST), so that a desk has at most 6.5 MB" >&2; exit 1; }
	cp "$$(go env GOROOT)/lib/wasm/wasm_exec.js" $(dir $@)
	go env GOVERSION >$(dir $@)go.txt
	mv build/engine.wasm.gz $@

# The modules that are linked change with go.mod, or else with an import: a test tells.
licences: $(LICENCES)

$(LICENCES): $(LOCK) go.mod go.sum LICENSE $(wildcard cmd/arrayodds/licences/*.go cmd/arrayodds/licences/collect/*.go)
	go run ./cmd/arrayodds/licences/collect $@ $(RELEASED)

browser: $(AXE)
	@go run ./charts/headless/fetch

$(AXE): charts/headless/axe/package.json charts/headless/axe/package-lock.json
	cd charts/headless/axe && npm ci --ignore-scripts --no-audit --no-fund
	@mkdir -p $(dir $@)
	cp charts/headless/axe/node_modules/axe-core/axe.min.js $@

build: setup engine licences
	go build -o bin/arrayodds ./cmd/arrayodds

demo: build
	@mkdir -p $(DEMO)
	bin/arrayodds compare $(SITE) --html $(DEMO)/report.html --sheet $(DEMO)/sheet.html --json $(DEMO)/report.json --csv $(DEMO)/report.csv --xlsx $(DEMO)/report.xlsx
	bin/arrayodds desk $(SITE) --html $(DEMO)/desk.html
	@echo
	@echo "The report is $(CURDIR)/$(DEMO)/report.html, sheet.html beside it the page for a customer, and desk.html the whole program in a page: open them in a browser."

picture: demo
	browser=$$(go run ./charts/headless/fetch) && timeout 60 "$$browser" --headless --no-sandbox --disable-gpu --no-first-run --disable-background-networking \
		--hide-scrollbars --user-data-dir=build/chromium --window-size=1100,2120 --virtual-time-budget=4000 \
		--screenshot=testdata/report.png file://$(CURDIR)/$(DEMO)/report.html 2>/dev/null || \
		{ echo "no picture within a minute: it wants a browser of the system, such as Debian's package chromium (CHROME= names one); the one in the npm package draws none" >&2; exit 1; }

# One browser for all tests that look at pages: to start it takes as long as a page.
test: setup engine licences $(AXE)
	go run ./charts/headless/fetch $(TESTS) $(PACKAGES)

test: export ARRAYODDS_THOROUGH = $(THOROUGH)

thorough:
	$(MAKE) test THOROUGH=1

# Packages with something that is shorter with -short. Go keeps results with it apart: the other
# packages are run without, so that make test and make short run them once between them.
SHORTER = $(shell grep -rlE --include='*_test.go' 'testing\.Short\(\)|"arrayodds/charts/chartstest"' array charts cmd sim | xargs -n 1 dirname | sort -u | sed 's,^,arrayodds/,')

# No page is opened here, so an engine that is some changes behind serves: to build it takes as
# long as the tests.
short: setup licences $(if $(wildcard $(ENGINE)),,engine)
	$(TESTS) -short $(SHORTER)
	$(TESTS) $(filter-out $(SHORTER),$(shell go list ./...))

short: export ARRAYODDS_THOROUGH =

# The packages are found by what starts a goroutine: the go statement or a group's Go.
# Tests that hold many runs against a figure, or one another, show no race that the others do not, and take
# ten times as long under the detector.
STATISTICS = MergedIsOneRun|Against|Agree|Cover|OftenOut|BySampling|IsTheIntegral|AddUp|Starters|Models|Literature

race: setup engine licences
	CGO_ENABLED=1 $(TESTS) -race -short -skip '$(STATISTICS)' $$(grep -rlE --include='*.go' '^[[:space:]]*go [a-zA-Z_.]+[({]|\.Go\(' array charts cmd sim | xargs -n 1 dirname | sort -u | sed 's,^,./,')

# That it builds for other systems is all that is asked, so nothing is optimised: a quarter less
# work where nothing is compiled yet. For js/wasm everything is built with -trimpath, as the
# engine is: without it the standard library would be compiled twice.
lint:
	@unformatted=$$(gofmt -l array charts cmd sim) && if [ -n "$$unformatted" ]; then echo "gofmt these:" $$unformatted >&2; exit 1; fi
	go vet ./...
	go tool staticcheck ./...
	@dead=$$(go tool deadcode ./... | grep -vE '^$(FORTESTS)/' || true; go tool deadcode -test ./...) && \
		if [ -n "$$dead" ]; then echo "nothing calls these, or tests alone:" >&2; echo "$$dead" | sort -u >&2; exit 1; fi
	@set -e; for system in $(SYSTEMS); do echo "building for $$system"; \
		GOOS=$${system%/*} GOARCH=$${system#*/} go build -gcflags="all=-N -l" ./...; done
	@echo "building for js/wasm"; GOOS=js GOARCH=wasm go build -trimpath $$(go list ./... | grep -vE '/$(FORTESTS)(/|$$)')

digits: setup
	@mkdir -p build
	GOOS=js GOARCH=wasm go build -trimpath -o build/arrayodds.wasm ./cmd/arrayodds
	ARRAYODDS_WASM="$$(go env GOROOT)/lib/wasm/go_js_wasm_exec $(CURDIR)/build/arrayodds.wasm" $(TESTS) -count 1 -run SameDigits ./cmd/arrayodds

browsers: setup engine
	$(TESTS) -count 1 -v -run OtherBrowsers ./cmd/arrayodds/desk -browsers

faults: setup licences browser
	$(TESTS) -count 1 -run 'Faults|Hostile' ./cmd/arrayodds -all
	$(TESTS) -count 1 -run OnePage ./charts/sheet -all

slurm: build
	go test ./cmd/arrayodds/batch -count 1 -run Slurm -slurm $(CURDIR)/bin/arrayodds

# Which seeds were drawn is shown, so that what fails can be run again by its own.
soak: SEED ?= $(shell date +%s)
soak: setup engine licences
	go test ./cmd/arrayodds -run Soak -soak $(SOAK) -soakseed $(SEED) -v -count 1 -timeout 0

walk: setup engine licences
	go test ./cmd/arrayodds -run FirstHour -walk -count 1

bench:
	go test -run '^$$' -bench . -benchmem ./...

calibrate:
	go test ./sim -run Calibrate -calibrate -v -count 1 -timeout 90m
	go test ./sim/engine -run 'Cover|Chain|Plain|RareSites|SparesRunOut' -calibrate -v -count 1 -timeout 90m
	go test ./sim/simtest/splitting -run RareSites -calibrate -v -count 1 -timeout 90m
	go test ./sim/sweep ./sim/study ./sim/sensitivity ./sim/trace -run 'Chain|Polynomial|Plain' -calibrate -v -count 1 -timeout 90m
	go test ./sim/choose -run Brute -calibrate -v -count 1
	go test ./cmd/arrayodds -run MergedIsOneRun -count 1 -all

fuzz:
	@set -e; go list ./... | while read -r package; do \
		go test -list '^Fuzz' $$package | { grep '^Fuzz' || true; } | while read -r target; do \
			echo "$$package $$target"; \
			go test -run '^$$' -fuzz "^$$target$$" -fuzztime $(FUZZTIME) $$package; \
		done; \
	done

clean:
	rm -rf bin build $(SCRIPT) $(LOCK) $(dir $(LOCK))licences $(ENGINE) $(dir $(ENGINE))wasm_exec.js $(dir $(ENGINE))go.txt $(LICENCES) charts/script/node_modules charts/headless/packed/dist charts/headless/packed/node_modules charts/headless/axe/dist charts/headless/axe/node_modules

include cmd/release/release.mk
