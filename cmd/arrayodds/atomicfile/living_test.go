//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package atomicfile

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// What a living run needs stays, whatever other runs find beside it.
func TestLivingRunKeepsItsFiles(t *testing.T) {
	openUnnamed = noUnnamed
	t.Cleanup(func() { openUnnamed = openWithoutName })
	dir := t.TempDir()
	var files []File
	for _, name := range []string{"a", "b"} {
		place, err := Find(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, File{place, []byte("first")})
	}
	living, err := Stage(files)
	if err != nil {
		t.Fatal(err)
	}
	dead := filepath.Base(hiddenPath(dir, ".tmp"))
	writeFile(t, filepath.Join(dir, dead), "", 0o644)
	if err := write(t.Context(), content{filepath.Join(dir, "a"), "second"}); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Lstat(filepath.Join(dir, dead)); !os.IsNotExist(err) {
		t.Errorf("what no run has locked is still there (%v)", err)
	}
	if err := living.Commit(t.Context()); err != nil {
		t.Fatal(err)
	}
	checkContent(t, filepath.Join(dir, "a"), "first")
	checkContent(t, filepath.Join(dir, "b"), "first")
	if got := names(t, dir); got != "a b" {
		t.Errorf("the directory holds %s", got)
	}
}

// A run that waits for a directory can be ended, and leaves nothing.
func TestWaitingForALockEnds(t *testing.T) {
	dir := t.TempDir()
	other, err := os.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close() // only locked
	if got, err := tryLock(other); !got || err != nil {
		t.Fatalf("locked: %v, %v", got, err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	if err := write(ctx, content{filepath.Join(dir, "a"), "x"}); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("error is %v", err)
	}
	if got := names(t, dir); got != "" {
		t.Errorf("the directory holds %s", got)
	}
}
