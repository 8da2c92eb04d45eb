package main

import (
	"flag"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var walk = flag.Bool("walk", false, "take the walk of DEVELOPERS.md in a copy of the repository: make walk does")

// top is the folder of the repository.
const top = "../.."

// TestFirstHour takes the walk that DEVELOPERS.md has for its first hour. Without -walk it
// looks whether what it edits is still there, which takes no time.
func TestFirstHour(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(top, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	steps := walkSteps(t, string(text))
	if !*walk {
		files := map[string]string{}
		for _, s := range steps {
			if s.command == "" {
				s.edit(t, top, files)
			}
		}
		return
	}
	dir := copyOf(t)
	for _, s := range steps {
		if s.command != "" {
			s.take(t, dir)
			continue
		}
		files := map[string]string{}
		s.edit(t, dir, files)
		for name, text := range files {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// walkStep is a command with what is seen, or an edit of a file.
type walkStep struct {
	command string
	file    string
	lines   []string
}

// walkSteps returns the steps of the walk.
func walkSteps(t *testing.T, text string) (steps []walkStep) {
	t.Helper()
	_, text, _ = strings.Cut(text, "## The first hour\n")
	text, _, _ = strings.Cut(text, "\n## ")
	commands := 0
	var now *walkStep
	for line := range strings.Lines(text) {
		inner, isCode := strings.CutPrefix(strings.TrimSuffix(line, "\n"), "    ")
		if !isCode {
			now = nil
			continue
		}
		command, isCommand := strings.CutPrefix(inner, "$ ")
		file, isFile := strings.CutPrefix(inner, "+++ ")
		switch {
		case isCommand, isFile:
			steps = append(steps, walkStep{command: command, file: file})
			now = &steps[len(steps)-1]
			if isCommand {
				commands++
			} else {
				now.command = ""
			}
		case now != nil:
			now.lines = append(now.lines, inner)
		case !strings.HasPrefix(inner, "--- "):
			t.Errorf("neither typed nor seen nor edited: %s", line)
		}
	}
	if commands < 8 || len(steps)-commands < 4 {
		t.Errorf("the walk has %d commands and %d edits", commands, len(steps)-commands)
	}
	return steps
}

// edit makes the edit in the text of its file among these, read from the folder if it is
// not there yet. The lines that it is made in stand there once.
func (s walkStep) edit(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	text, ok := files[s.file]
	if !ok {
		data, err := os.ReadFile(filepath.Join(dir, s.file))
		if err != nil {
			t.Fatal(err)
		}
		text = string(data)
	}
	var before, after strings.Builder
	for _, line := range s.lines {
		kind, rest := line[0], line[1:]+"\n"
		if kind != '+' {
			before.WriteString(rest)
		}
		if kind != '-' {
			after.WriteString(rest)
		}
	}
	if !*walk && strings.Count(text, after.String()) == 1 {
		return // somebody takes the walk
	}
	if n := strings.Count(text, before.String()); n != 1 {
		t.Fatalf("%s has these lines %d times, want once (DEVELOPERS.md, the first hour):\n%s", s.file, n, before.String())
	}
	files[s.file] = strings.Replace(text, before.String(), after.String(), 1)
}

// seconds is a length of time in the output of go test, which is another each time.
var seconds = regexp.MustCompile(`[0-9]+\.[0-9]+s|\(cached\)`)

// take types the command, and sees what should be seen. Where it fails, that is said in a
// line of its own.
func (s walkStep) take(t *testing.T, dir string) {
	t.Helper()
	c := inPlace(dir, s.command)
	out, err := c.CombinedOutput()
	seen := strings.TrimSuffix(string(out), "\n")
	if exit, ok := err.(*exec.ExitError); ok {
		seen += "\n" + exit.Error()
	} else if err != nil {
		t.Fatal(err)
	}
	var want strings.Builder
	for i, line := range s.lines {
		if i > 0 {
			want.WriteString("\n")
		}
		if line == "..." {
			want.WriteString("(?s:.*)")
			continue
		}
		want.WriteString(regexp.QuoteMeta(strings.Join(strings.Fields(seconds.ReplaceAllString(line, "")), " ")))
	}
	var got []string
	for line := range strings.Lines(seen) {
		got = append(got, strings.Join(strings.Fields(seconds.ReplaceAllString(line, "")), " "))
	}
	pattern := strings.ReplaceAll(want.String(), "(?s:.*)\n", "(?s:.*\n)?")
	if !regexp.MustCompile("^" + pattern + "$").MatchString(strings.Join(got, "\n")) {
		t.Fatalf("$ %s\nshows\n%s\nDEVELOPERS.md says\n%s", s.command, seen, strings.Join(s.lines, "\n"))
	}
}

// inPlace returns a command that runs in the folder, which stands where the repository is
// for as long, where the system lets it: there all is compiled already.
func inPlace(dir, command string) *exec.Cmd {
	c := exec.Command("sh", "-c", command)
	c.Dir = dir
	if at, err := filepath.Abs(top); err == nil && exec.Command("unshare", "--mount", "mount", "--bind", dir, at).Run() == nil {
		c = exec.Command("unshare", "--mount", "sh", "-c", `mount --bind "$1" "$2" && cd "$2" && exec sh -c "$3"`, "sh", dir, at, command)
	}
	// What make tells the makes that it runs, this is not to hear: it would say more.
	c.Env = slices.DeleteFunc(os.Environ(), func(v string) bool { return strings.HasPrefix(v, "MAKE") || strings.HasPrefix(v, "MFLAGS=") })
	return c
}

// copyOf returns a copy of what git knows of the repository, and of what make has put in
// place for a build.
func copyOf(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	c := exec.Command("git", "ls-files", "-z", "--cached", "--others", "--exclude-standard")
	c.Dir = top
	out, err := c.Output()
	if err != nil {
		t.Fatalf("the walk is taken in a copy of what git knows: %v", err)
	}
	names := strings.Split(strings.Trim(string(out), "\x00"), "\x00")
	for _, built := range []string{"charts/script/dist/echarts.min.js", "cmd/arrayodds/desk/dist/wasm_exec.js", "cmd/arrayodds/desk/dist/engine.wasm.gz"} { // the last is made of all else
		names = append(slices.DeleteFunc(names, func(name string) bool { return name == built }), built)
	}
	for _, name := range names {
		if err := copyFile(filepath.Join(dir, name), filepath.Join(top, name)); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func copyFile(to, from string) error {
	in, err := os.Open(from)
	if os.IsNotExist(err) { // removed, and git does not know yet
		return nil
	} else if err != nil {
		return err
	}
	defer in.Close()
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	info, err := in.Stat()
	if err != nil {
		return err
	}
	out, err := os.OpenFile(to, os.O_CREATE|os.O_WRONLY, info.Mode()&fs.ModePerm)
	if err != nil {
		return err
	}
	if _, err := io.Copy(out, in); err != nil {
		return err
	}
	return out.Close()
}
