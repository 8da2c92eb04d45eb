# make release      static binaries for RELEASES, their bills of materials, the manual page, checksums
# make reproduce    the same again from a clone in another folder, nothing of the first used: the same bytes?
# make tryrelease   the Linux ones in an empty folder, with nothing installed

# The systems that make release builds for; make release RELEASES=linux/arm64 builds one.
RELEASED  = linux/amd64 linux/arm64 windows/amd64 windows/arm64 darwin/amd64 darwin/arm64
RELEASES  = $(RELEASED)
RELEASE   = build/release
AGAIN     = build/again/in/another/folder
CYCLONEDX = build/cyclonedx-gomod

# The oldest processors that Go builds for, and nothing of this machine's settings.
STATIC    = CGO_ENABLED=0 GOFLAGS= GOEXPERIMENT= GOWORK=off GOAMD64=v1 GOARM64=v8.0

# No product is fused with a sum for arm64, which would round once in place of twice: one
# seed gives the digits of amd64, and of the desk. (For amd64 v1 nothing is fused.)
UNFUSED   = -gcflags=all=-d=fmahash=qn

.PHONY: release reproduce tryrelease

# The Go command notes the commit, and whether there are changes in none: such a program
# could be built by nobody else.
release: setup engine licences $(CYCLONEDX)
	@changes=$$(git status --porcelain) || exit 1; test -z "$$changes" || { echo "these are in no commit, so nobody else could build the same:" >&2; echo "$$changes" >&2; exit 1; }
	rm -rf $(RELEASE) && mkdir -p $(RELEASE)
	@set -e; for system in $(RELEASES); do os=$${system%/*}; processor=$${system#*/}; \
		file=$(RELEASE)/arrayodds-$$os-$$processor; test $$os != windows || file=$$file.exe; \
		test $$processor = arm64 && unfused=$(UNFUSED) || unfused=; \
		echo "building $$file"; \
		$(STATIC) GOOS=$$os GOARCH=$$processor go build $$unfused -trimpath -buildvcs=true -ldflags="-s -w" -o $$file ./cmd/arrayodds; \
		go version -m $$file | grep -q "vcs.revision=$$(git rev-parse HEAD)" || { echo "the Go command noted no commit in $$file; right would be a clone of the repository, as it finds none in a linked work tree" >&2; exit 1; }; \
		$(CYCLONEDX) bin -json -noserial -notimestamp -std $$file >build/linked.json 2>build/linked.log || { cat build/linked.log >&2; exit 1; }; \
		$(STATIC) go run -trimpath -buildvcs=false ./cmd/arrayodds/licences/sbom $$file <build/linked.json >$$file.cdx.json; \
	done
	$(STATIC) go build -trimpath -buildvcs=true -ldflags="-s -w" -o build/arrayodds ./cmd/arrayodds
	@build/arrayodds --version >build/version.txt; cat build/version.txt; ! grep 'none in this build' build/version.txt
	build/arrayodds man >$(RELEASE)/arrayodds.1
	cd $(RELEASE) && sha256sum * >SHA256SUMS
	@cat $(RELEASE)/SHA256SUMS

$(CYCLONEDX): cmd/release/go.mod cmd/release/go.sum
	cd cmd/release && $(STATIC) go build -trimpath -buildvcs=false -o $(abspath $@) github.com/CycloneDX/cyclonedx-gomod/cmd/cyclonedx-gomod

# The clone makes everything itself, the engine too, with a cache of its own: by what the
# first one compiled, the second would not be a second.
reproduce: release
	rm -rf build/again && mkdir -p $(AGAIN)
	git clone --quiet . $(AGAIN)
	@touch $(CYCLONEDX) # newer than what it is made of in the clone, which uses it
	GOCACHE=$(CURDIR)/build/again/cache $(MAKE) -C $(AGAIN) release RELEASES="$(RELEASES)" CYCLONEDX=$(abspath $(CYCLONEDX))
	@set -e; for file in $(RELEASE)/*; do cmp $$file $(AGAIN)/$$file; done
	rm -rf build/again
	@echo "built twice, from different folders: the same bytes"

tryrelease: $(wildcard $(RELEASE)/arrayodds-linux-*)
	cmd/release/try.sh $(RELEASE)
