package atomicfile

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func writeFile(t *testing.T, path, text string, mode os.FileMode) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), mode); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
}

func checkContent(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%s holds %q (%v), want %q", filepath.Base(path), got, err, want)
	}
}

// names lists a directory, so that a file left behind is noticed.
func names(t *testing.T, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return strings.Join(all, " ")
}

// content is what a path is to have.
type content struct{ path, text string }

// write writes files, all or none.
func write(ctx context.Context, all ...content) error {
	var files []File
	for _, c := range all {
		place, err := Find(c.path)
		if err != nil {
			return err
		}
		files = append(files, File{place, []byte(c.text)})
	}
	s, err := Stage(files)
	if err != nil {
		return err
	}
	if err := s.WriteStreams(); err != nil {
		return errors.Join(err, s.Discard())
	}
	return s.Commit(ctx)
}

func TestWrite(t *testing.T) {
	dir := t.TempDir()
	old, link := filepath.Join(dir, "old"), filepath.Join(dir, "link")
	writeFile(t, old, "before", 0o600)
	if err := os.Symlink("old", link); err != nil {
		t.Fatal(err)
	}
	err := write(t.Context(), content{link, "after"}, content{filepath.Join(dir, "new"), "fresh"}, content{os.DevNull, "gone"})
	if err != nil {
		t.Fatal(err)
	}
	checkContent(t, old, "after")
	checkContent(t, filepath.Join(dir, "new"), "fresh")
	if got := names(t, dir); got != "link new old" {
		t.Errorf("the directory holds %s", got)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is one no longer: %v %v", info.Mode(), err)
	}
	if info, err := os.Stat(old); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the old file's permissions became %v (%v)", info.Mode(), err)
	}
	if info, err := os.Stat(os.DevNull); err != nil || info.Mode()&os.ModeDevice == 0 {
		t.Errorf("%s was replaced: %v (%v)", os.DevNull, info.Mode(), err)
	}
}

func TestWriteAllOrNothing(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "old")
	writeFile(t, old, "before", 0o644)
	err := write(t.Context(), content{old, "after"}, content{filepath.Join(dir, "nowhere", "new"), ""})
	if err == nil || !strings.Contains(err.Error(), "nowhere") {
		t.Errorf("error %v does not name the place", err)
	}
	checkContent(t, old, "before")
	if got := names(t, dir); got != "old" {
		t.Errorf("the directory holds %s", got)
	}
}

func TestWriteCancelled(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "old")
	writeFile(t, old, "before", 0o644)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := write(ctx, content{old, "after"}); !errors.Is(err, context.Canceled) {
		t.Errorf("error is %v", err)
	}
	checkContent(t, old, "before")
	if got := names(t, dir); got != "old" {
		t.Errorf("the directory holds %s", got)
	}
}

func TestCheck(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	writeFile(t, at("file"), "x", 0o644)
	writeFile(t, at("protected"), "x", 0o444)
	if err := os.Symlink("nothing", at("dangling")); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		at("file"):                   "",
		at("new"):                    "",
		os.DevNull:                   "",
		dir:                          "is a directory",
		at("no/new"):                 "there is no directory",
		at("file/new"):               "file/new",
		at("protected"):              "write-protected",
		at("dangling"):               "not there",
		at(strings.Repeat("x", 300)): "name too long",
	} {
		place, err := Find(path)
		if err == nil {
			err = place.Check()
		}
		if (want == "") != (err == nil) || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q", strings.TrimPrefix(path, dir), err, want)
		}
	}
	if got := names(t, dir); got != "dangling file protected" {
		t.Errorf("the directory holds %s", got)
	}
	checkContent(t, at("file"), "x")
}

func TestSame(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	writeFile(t, at("a"), "", 0o644)
	writeFile(t, at("b"), "", 0o644)
	if err := os.Link(at("a"), at("hard")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(dir, at("round")); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"a", at("a"), true},
		{"a", "./hard", true},
		{"a", "round/a", true},
		{"new", "round/new", true},
		{"new", "./x/../new", true},
		{"a", "b", false},
		{"a", "new", false},
		{"new", "newer", false},
	} {
		a, errA := Find(c.a)
		b, errB := Find(c.b)
		if got := a.Same(b); got != c.want || errA != nil || errB != nil {
			t.Errorf("%q and %q: the same: %v (%v, %v)", c.a, c.b, got, errA, errB)
		}
	}
}
