//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package atomicfile

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"

	"arrayodds/array/thorough"
)

// killAt is the variable that makes of a test process one that writes files and is
// killed at a step of the commit, counted from 1.
const killAt = "ATOMICFILE_KILL_AT"

func TestMain(m *testing.M) {
	if at, err := strconv.Atoi(os.Getenv(killAt)); err == nil {
		step = func(string) {
			if at--; at == 0 {
				if err := syscall.Kill(os.Getpid(), syscall.SIGKILL); err != nil {
					panic(err)
				}
				select {} // until the signal arrives
			}
		}
		if os.Getenv("ATOMICFILE_NAMED") != "" {
			openUnnamed = noUnnamed
		}
		if err := write(context.Background(), newContents(os.Args[len(os.Args)-1])...); err != nil {
			panic(err)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

func noUnnamed(string, fs.FileMode) (*os.File, error) { return nil, errors.ErrUnsupported }

// newContents are two files that replace others and two that do not, in two
// directories.
func newContents(dir string) []content {
	var all []content
	for _, name := range []string{"a", "sub/b", "c", "sub/d"} {
		all = append(all, content{filepath.Join(dir, name), "new"})
	}
	return all
}

// state tells a directory with one letter a file: o for old, n for new, - for none,
// and how many other files are there.
func state(t *testing.T, dir string) (files string, others int) {
	t.Helper()
	for _, c := range newContents(dir) {
		switch text, err := os.ReadFile(c.path); {
		case errors.Is(err, fs.ErrNotExist):
			files += "-"
		case err != nil:
			t.Fatal(err)
		case string(text) == "old" || string(text) == "new":
			files += string(text[0])
		default:
			files += "?"
		}
	}
	all := strings.Fields(names(t, dir) + " " + names(t, filepath.Join(dir, "sub")))
	return files, len(all) - 1 - strings.Count(files, "o") - strings.Count(files, "n")
}

const (
	allOld = "oo--"
	allNew = "nnnn"
)

// A process that is killed at any step leaves the old files or the new ones once
// another run has written into these directories, and no temporary file. make thorough
// does so too where files cannot be without names.
func TestKilledAtAnyStep(t *testing.T) {
	for _, system := range []string{"", "named"} {
		if system != "" && (testing.Short() || !thorough.Asked()) {
			continue
		}
		t.Run("files without names: "+fmt.Sprint(system == ""), func(t *testing.T) {
			seen := map[string]int{}
			for at := 1; ; at++ {
				dir := t.TempDir()
				if err := os.Mkdir(filepath.Join(dir, "sub"), 0o755); err != nil {
					t.Fatal(err)
				}
				writeFile(t, filepath.Join(dir, "a"), "old", 0o664)
				writeFile(t, filepath.Join(dir, "sub/b"), "old", 0o600)
				c := exec.Command(os.Args[0], dir)
				c.Env = append(os.Environ(), killAt+"="+strconv.Itoa(at), "ATOMICFILE_NAMED="+system)
				text, err := c.CombinedOutput()
				if err == nil {
					break // there are no more steps
				}
				if c.ProcessState.Sys().(syscall.WaitStatus).Signal() != syscall.SIGKILL {
					t.Fatalf("%v: %s", err, text)
				}
				killed, _ := state(t, dir)
				// The next run, of another file in each of the two directories.
				other := []content{{filepath.Join(dir, "other"), "x"}, {filepath.Join(dir, "sub/other"), "x"}}
				if at%2 == 0 {
					other = other[at/2%2:][:1] // or in one only
				}
				if err := write(t.Context(), other...); err != nil {
					t.Fatal(err)
				}
				got, others := state(t, dir)
				if got != allOld && got != allNew {
					t.Errorf("killed at step %d: %s, and after the next run %s", at, killed, got)
				}
				if len(other) == 2 && others != len(other) {
					t.Errorf("killed at step %d: left behind: %s, %s", at, names(t, dir), names(t, filepath.Join(dir, "sub")))
				}
				if killed != allOld && killed != allNew {
					killed = "mixed"
				}
				seen[killed]++
			}
			// All of them are met, so that the above tells something.
			if seen[allOld] < 5 || seen[allNew] < 2 || seen["mixed"] < 2 {
				t.Errorf("killed with files %v", seen)
			}
		})
	}
}

// A file that somebody changed after the kill stays as it is.
func TestChangedSinceTheKill(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "sub"), 0o755); err != nil {
		t.Fatal(err)
	}
	writeFile(t, filepath.Join(dir, "a"), "old", 0o644)
	for at := 1; ; at++ {
		c := exec.Command(os.Args[0], dir)
		c.Env = append(os.Environ(), killAt+"="+strconv.Itoa(at))
		if err := c.Run(); err == nil {
			t.Fatal("there was no kill between two renamings")
		}
		if files, _ := state(t, dir); strings.HasPrefix(files, "n") && files != allNew {
			break
		}
	}
	writeFile(t, filepath.Join(dir, "a"), "changed", 0o644)
	if err := write(t.Context(), content{filepath.Join(dir, "other"), "x"}); err != nil {
		t.Fatal(err)
	}
	checkContent(t, filepath.Join(dir, "a"), "changed")
}

// A record that others could have written is not believed.
func TestForeignRecord(t *testing.T) {
	dir := t.TempDir()
	victim := filepath.Join(dir, "victim")
	writeFile(t, victim, "old", 0o644)
	info, err := os.Lstat(victim)
	if err != nil {
		t.Fatal(err)
	}
	path := hiddenPath(dir, ".undo")
	u := undoRecord{Primary: path, Files: []undoFile{{Path: victim, Temp: hiddenPath(dir, ".tmp"), New: identify(info), Fresh: true}}}
	for _, mode := range []os.FileMode{0o666, 0o600} {
		writeRecordAt(t, path, u, mode)
		if err := write(t.Context(), content{filepath.Join(dir, "other"), "x"}); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Lstat(victim); (err == nil) != (mode == 0o666) {
			t.Errorf("a record of mode %v: %v", mode, err)
		}
	}
}

func writeRecordAt(t *testing.T, path string, u undoRecord, mode os.FileMode) {
	t.Helper()
	data, err := json.Marshal(u)
	if err != nil {
		t.Fatal(err)
	}
	writeFile(t, path, string(data), mode)
}

// Two runs at once on the same files, named in different order: one wins whole.
func TestTwoAtOnce(t *testing.T) {
	dir := t.TempDir()
	const files = 4
	for range 20 {
		var group sync.WaitGroup
		for w := range 4 {
			group.Go(func() {
				var all []content
				for i := range files {
					all = append(all, content{filepath.Join(dir, fmt.Sprint((i+w)%files)), fmt.Sprint(w)})
				}
				if err := write(t.Context(), all...); err != nil {
					t.Error(err)
				}
			})
		}
		group.Wait()
		first, err := os.ReadFile(filepath.Join(dir, "0"))
		if err != nil {
			t.Fatal(err)
		}
		for i := range files {
			checkContent(t, filepath.Join(dir, fmt.Sprint(i)), string(first))
		}
		if got := names(t, dir); got != "0 1 2 3" {
			t.Fatalf("the directory holds %s", got)
		}
	}
}
