package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Small inputs, so that a run takes little time.
const (
	faultSite = `
name = "Harbour hut"
service_life = "2 y"
[[cameras]]
label = "Slip"
count = 2
bitrate = "4 Mbit/s"
retention = "10 d"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { afr = "20 %" }
transfer = "180 MB/s"
price = 100
[[choices]]
label = "mirror"
drive = "4 TB"
layout = "RAID 1"
drives = 2
[goal]
loss_chance = "1 in 10"
[run]
accuracy = "50 %"
max_trials = 1000
`
	faultState  = "age = \"1 y\"\n[[drives]]\nnumber = 2\nstate = \"down\"\n"
	faultRecord = "label,drive_days,failures\na,100000,5\nb,200000,3\n"
)

// faultRun is a folder in which one command meets one fault. Its outputs go to the
// folder "out", where the first of them stands already.
type faultRun struct {
	*testing.T
	command faultCommand
	dir     string
	inputs  map[string]string // the files that are read
	old     map[string]string // the outputs before
	new     map[string]string // and after an undisturbed run
	seed    string            // of the command's flag, "" for the site's
	pipes   []string          // named pipes that outputs go to beside the files
}

// faultOutcome is how a run ended.
type faultOutcome struct {
	status         int
	stdout, stderr string
}

func newFaultRun(t *testing.T, c faultCommand) *faultRun {
	t.Helper()
	return newFaultRunOf(t, c, map[string]string{"site.toml": faultSite, "record.csv": faultRecord, "fleet/site.toml": faultSite, "fleet/array.state.toml": faultState})
}

// newFaultRunOf is as newFaultRun, with inputs of its own. A record.csv is among them.
func newFaultRunOf(t *testing.T, c faultCommand, inputs map[string]string) *faultRun {
	t.Helper()
	root := "/dev/shm" // in memory, where syncing to disk takes no time
	dir, err := os.MkdirTemp(root, "arrayodds-test-")
	if err != nil {
		dir = t.TempDir()
	}
	t.Cleanup(func() {
		if err := os.RemoveAll(dir); err != nil {
			t.Error(err)
		}
	})
	r := &faultRun{T: t, command: c, dir: dir, inputs: inputs, old: map[string]string{}}
	for name, text := range inputs {
		r.check(os.MkdirAll(filepath.Dir(r.path(name)), 0o755))
		r.writeFile(name, text)
	}
	if c.input == "site.part" {
		part := exec.Command("arrayodds", "compare", "site.toml", "--blocks", "4", "--part", "1/1", "--out", c.input)
		part.Dir = r.dir
		switch text, err := part.CombinedOutput(); {
		case part.ProcessState != nil && part.ProcessState.ExitCode() == exitUsage && inputs["site.toml"] != faultSite:
			r.writeFile(c.input, inputs["site.toml"]) // a site that is refused makes no part, so what is merged is none
		case err != nil:
			t.Fatalf("%v: %s", err, text)
		}
	}
	r.check(os.Mkdir(r.path("out"), 0o755))
	r.layOut()
	return r
}

// layOut puts what was there before into the folder of outputs.
func (r *faultRun) layOut() {
	r.Helper()
	clear(r.old)
	if len(r.command.formats) > 0 {
		name := "x." + r.command.formats[0]
		r.old[name] = "the old one"
		r.writeFile("out/"+name, r.old[name])
	}
}

func (r *faultRun) path(name string) string { return filepath.Join(r.dir, name) }

func (r *faultRun) check(err error) {
	r.Helper()
	if err != nil {
		r.Fatal(err)
	}
}

func (r *faultRun) writeFile(name, text string) {
	r.Helper()
	r.check(os.WriteFile(r.path(name), []byte(text), 0o644))
}

// mkfifo makes a named pipe that the page goes to as well.
func (r *faultRun) mkfifo(name string) string {
	r.Helper()
	r.check(syscall.Mkfifo(r.path(name), 0o600))
	r.pipes = append(r.pipes, name)
	return r.path(name)
}

// args returns the command line, which reads the input from a path.
func (r *faultRun) args(input string) []string {
	c := r.command
	args := []string{c.name}
	if input != "" {
		args = append(args, input)
	}
	args = append(args, c.flags...)
	if r.seed != "" && c.seeded {
		args = append(args, "--seed", r.seed)
	}
	for _, f := range c.formats {
		args = append(args, "--"+f, "out/x."+f)
	}
	for _, name := range r.pipes {
		args = append(args, "--"+c.formats[0], name)
	}
	return args
}

// cmd returns the command, not started. Where before is given, a shell runs it
// first, in the same process.
func (r *faultRun) cmd(before string) *exec.Cmd {
	c := exec.Command("arrayodds", r.args(r.command.input)...)
	if before != "" {
		c = exec.Command("sh", append([]string{"-c", before + `exec arrayodds "$@"`, "sh"}, c.Args[1:]...)...)
	}
	c.Dir = r.dir
	return c
}

// started is a command that is running.
type started struct {
	*exec.Cmd
	stdout, stderr *bytes.Buffer
}

// start starts a command.
func (r *faultRun) start(c *exec.Cmd) started {
	r.Helper()
	s := started{Cmd: c, stdout: &bytes.Buffer{}, stderr: &bytes.Buffer{}}
	if c.Stdout == nil {
		c.Stdout = s.stdout
	}
	c.Stderr = s.stderr
	r.check(c.Start())
	return s
}

// tooLong is how long a run may take at most; a signal ends it much sooner.
const (
	tooLong = time.Minute
	atOnce  = 5 * time.Second // on a machine that does much else
)

// wait waits for the end of a command.
func (r *faultRun) wait(s started, most time.Duration) faultOutcome {
	r.Helper()
	timer := time.AfterFunc(most, func() {
		r.Errorf("it did not end within %v", most)
		_ = s.Process.Kill() // it may have ended this moment
	})
	err := s.Wait()
	timer.Stop()
	if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
		r.Fatal(err)
	}
	status := s.ProcessState.Sys().(syscall.WaitStatus)
	code := status.ExitStatus()
	if status.Signaled() {
		code = 128 + int(status.Signal())
	}
	return faultOutcome{code, s.stdout.String(), s.stderr.String()}
}

// outputs returns what stands in the folder of outputs under their names.
func (r *faultRun) outputs() map[string]string {
	r.Helper()
	found := map[string]string{}
	for _, f := range r.command.formats {
		text, err := os.ReadFile(r.path("out/x." + f))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		r.check(err)
		found["x."+f] = string(text)
	}
	return found
}

// state tells whether the outputs are the old ones or the new ones.
func (r *faultRun) state() string {
	r.Helper()
	found := r.outputs()
	same := func(want map[string]string) bool {
		for _, f := range r.command.formats {
			a, inA := found["x."+f]
			b, inB := want["x."+f]
			if a != b || inA != inB {
				return false
			}
		}
		return true
	}
	switch {
	case same(r.new):
		return "new"
	case same(r.old):
		return "old"
	}
	for name, text := range found {
		if text != r.old[name] && text != r.new[name] {
			return "not whole: " + name
		}
	}
	return "mixed"
}

// checkFolder looks for what does not belong there, and whether the inputs are as
// they were.
func (r *faultRun) checkFolder() {
	r.Helper()
	entries, err := os.ReadDir(r.path("out"))
	r.check(err)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), "x.") && !strings.HasPrefix(e.Name(), "other.") {
			r.Errorf("%s is left", e.Name())
		}
	}
	for name, want := range r.inputs {
		if text, err := os.ReadFile(r.path(name)); err != nil || string(text) != want {
			r.Errorf("%s is not what it was (%v)", name, err)
		}
	}
}

// checkOutcome looks at what was said.
func (r *faultRun) checkOutcome(got faultOutcome, status int) {
	r.Helper()
	silent := status == 0 || status > 128 || status == anyStatus
	if strings.Contains(got.stderr, "goroutine ") || !silent && !strings.HasPrefix(got.stderr, "arrayodds: ") {
		r.Errorf("it says %q", got.stderr)
	}
}
