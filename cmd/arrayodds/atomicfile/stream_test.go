//go:build unix

package atomicfile

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// What a descriptor leads to is written to behind what is there, by any name.
func TestDescriptorIsAStream(t *testing.T) {
	dir := t.TempDir()
	log := filepath.Join(dir, "log")
	writeFile(t, log, "one ", 0o644)
	f, err := os.OpenFile(log, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close() // written to by others
	link := filepath.Join(dir, "link")
	if err := os.Symlink(fmt.Sprintf("/dev/fd/%d", f.Fd()), link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{fmt.Sprintf("/dev/fd/%d", f.Fd()), link} {
		if err := write(t.Context(), content{path, "two "}, content{filepath.Join(dir, "file"), "x"}); err != nil {
			t.Fatal(err)
		}
	}
	checkContent(t, log, "one two two ")

	place, err := Find(link)
	if err != nil {
		t.Fatal(err)
	}
	if direct, err := Find(log); err != nil || !place.Stream() || direct.Stream() || !direct.Same(place) {
		t.Errorf("by the descriptor %+v, by its name %+v (%v)", place, direct, err)
	}
	in, err := os.Open(log)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close() // only read from
	if _, err := Find(fmt.Sprintf("/dev/fd/%d", in.Fd())); err == nil || !strings.Contains(err.Error(), "for reading only") {
		t.Errorf("error %v", err)
	}
	if _, err := Find("/dev/fd/98765"); err == nil || !strings.Contains(err.Error(), "no such open file") {
		t.Errorf("error %v", err)
	}
}

func TestNull(t *testing.T) {
	for path, want := range map[string]bool{os.DevNull: true, "/dev/zero": false, filepath.Join(t.TempDir(), "new"): false} {
		if place, err := Find(path); err != nil || place.Null() != want {
			t.Errorf("%s: %v (%v)", path, place.Null(), err)
		}
	}
}

// What is neither replaced nor written to is refused.
func TestSocketIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "s")
	if err := syscall.Mknod(path, syscall.S_IFSOCK|0o600, 0); err != nil {
		t.Skipf("no socket can be made: %v", err)
	}
	if _, err := Find(path); err == nil || !strings.Contains(err.Error(), "neither a file nor a pipe") {
		t.Errorf("error %v", err)
	}
}

// A rename that fails after others is undone with them.
func TestFailedRename(t *testing.T) {
	for last := 1; last <= 4; last++ {
		dir := t.TempDir()
		if err := os.Mkdir(filepath.Join(dir, "sub"), 0o755); err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"a", "sub/b"} {
			writeFile(t, filepath.Join(dir, name), "old", 0o640)
		}
		all := newContents(dir)
		renames := 0
		step = func(at string) {
			if at != "rename" {
				return
			}
			if renames++; renames == last { // a folder takes the place of one that comes next
				path := all[last-1].path
				if err := os.RemoveAll(path); err != nil {
					t.Error(err)
				}
				if err := os.Mkdir(path, 0o755); err != nil {
					t.Error(err)
				}
			}
		}
		err := write(t.Context(), all...)
		step = func(string) {}
		if err == nil || !strings.Contains(err.Error(), all[last-1].path) {
			t.Errorf("error %v does not name %s", err, all[last-1].path)
		}
		for i, c := range all {
			switch {
			case i == last-1:
			case i < 2:
				checkContent(t, c.path, "old")
			default:
				if _, err := os.Lstat(c.path); !os.IsNotExist(err) {
					t.Errorf("%s is there after a failure (%v)", c.path, err)
				}
			}
		}
		for _, name := range strings.Fields(names(t, dir) + " " + names(t, filepath.Join(dir, "sub"))) {
			if leftName.MatchString(name) {
				t.Errorf("%s is left", name)
			}
		}
	}
}

// A file that replaces another has its owner and permissions.
func TestKeepsOwner(t *testing.T) {
	if os.Geteuid() != 0 {
		t.Skip("only root can give files away")
	}
	path := filepath.Join(t.TempDir(), "f")
	writeFile(t, path, "old", 0o640)
	if err := os.Chown(path, 12345, 54321); err != nil {
		t.Fatal(err)
	}
	if err := write(t.Context(), content{path, "new"}); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if s := info.Sys().(*syscall.Stat_t); s.Uid != 12345 || s.Gid != 54321 || info.Mode().Perm() != 0o640 {
		t.Errorf("owner %d, group %d, mode %v", s.Uid, s.Gid, info.Mode())
	}
	checkContent(t, path, "new")
}
