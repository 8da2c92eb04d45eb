package version

import (
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
)

// Exact names the build so that no other that could find other digits has the same name:
// as String does, with the Go that compiled it; and where no commit says what is in it,
// with the SHA-256 of the program itself. The error is that of reading it.
func (b Build) Exact() (string, error) {
	text := b.String() + ", " + b.Go
	if b.Commit != "" && !b.Modified {
		return text, nil
	}
	sum, err := ownSum()
	if err != nil {
		return "", fmt.Errorf("this program has no commit that tells it from others, and cannot be read: %w", err)
	}
	return text + ", sha256 " + sum, nil
}

// ownSum returns the SHA-256 of the program that runs, in hexadecimal.
var ownSum = sync.OnceValues(func() (string, error) {
	path, err := os.Executable()
	if err != nil {
		return "", err
	}
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close() // only read from
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return fmt.Sprintf("%x", h.Sum(nil)), nil
})

// processorOf returns the kind of processor, with the level of it that a build is for
// where it says one: from amd64's v3 up, the compiler may fuse a product and a sum, which
// rounds otherwise.
func processorOf(settings []debug.BuildSetting) string {
	for _, s := range settings {
		if s.Key == "GO"+strings.ToUpper(runtime.GOARCH) {
			return runtime.GOARCH + " " + s.Value
		}
	}
	return runtime.GOARCH
}
