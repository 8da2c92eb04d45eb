package main

import (
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
	"testing"

	"arrayodds/array/thorough"
)

// faultPromises is what the program promises where something goes wrong. Every row holds
// for every command, unless it says for which. Statuses are as a shell gives them:
// 128 and the signal's number where a signal ends the program.
//
// Files are as they were before the run ("old"), or those of an undisturbed run to
// the byte ("new"); with any fault they are the one or the other in all, and beside
// them nothing is left. Inputs stay as they are.
var faultPromises = []promise{
	{"nothing goes wrong", undisturbed, everyCommand, 0, "new"},

	// What cannot be written.
	{"disk is full", onFullDisk, writesFiles, 1, "old"},
	{"files may not grow", withFileLimit, writesFiles, 1, "old"},
	{"folder is read-only", inReadOnlyFolder, writesFiles, 2, "old"},
	{"folder vanishes during the run", folderVanishes, writesFiles, 1, "old"},
	{"standard output is full", toFullOutput, everyCommand, 1, "old"},
	{"nobody reads standard output", toBrokenPipe, everyCommand, 128 + int(syscall.SIGPIPE), "old"},

	// Streams that are closed are as /dev/null.
	{"standard streams are closed", streamsClosed, everyCommand, 0, "new"},

	// What ends the program.
	{"SIGINT while it reads standard input", reading(syscall.SIGINT), readsInput, 1, "old"},
	{"SIGTERM while it reads standard input", reading(syscall.SIGTERM), readsInput, 1, "old"},
	{"SIGHUP while it reads standard input", reading(syscall.SIGHUP), readsInput, 1, "old"},
	{"SIGINT while a pipe has no reader", waiting(syscall.SIGINT), writesFiles, 1, "old"},
	{"SIGTERM while a pipe has no reader", waiting(syscall.SIGTERM), writesFiles, 1, "old"},
	{"SIGHUP while a pipe has no reader", waiting(syscall.SIGHUP), writesFiles, 1, "old"},
	{"SIGKILL at a random moment, then another run", killed, writesFiles, anyStatus, "old or new"},

	{"two runs on the same files at once", twoAtOnce, writesFiles, 0, "new"},
}

// promise is a row of [faultPromises].
type promise struct {
	fault  string
	run    func(*faultRun) faultOutcome
	of     func(faultCommand) bool
	status int
	files  string
}

const anyStatus = -1

func everyCommand(faultCommand) bool  { return true }
func writesFiles(c faultCommand) bool { return len(c.formats) > 0 }
func readsInput(c faultCommand) bool  { return c.input != "" }

// faultCommand is a command line that faults are made for.
type faultCommand struct {
	name    string
	input   string // the file that it reads
	flags   []string
	formats []string // flags that name the outputs
	seeded  bool     // another seed gives other files
}

// faultCommands has every command.
var faultCommands = []faultCommand{
	{name: "new", flags: []string{"-"}},
	{name: "check", input: "site.toml"},
	{name: "size", input: "site.toml"},
	{name: "compare", input: "site.toml", formats: []string{"html", "json", "csv", "xlsx", "sheet"}, seeded: true},
	{name: "merge", input: "site.part", formats: []string{"html", "json", "csv", "xlsx", "sheet"}},
	{name: "choose", input: "site.toml", formats: []string{"html", "json", "csv", "sheet"}, seeded: true},
	{name: "vary", input: "site.toml", flags: []string{"--over", "care.response=10h..30h", "--points", "2"}, formats: []string{"html", "json", "csv"}, seeded: true},
	// A part, and one of so many values that a pipe does not hold it.
	{name: "vary", input: "site.toml", flags: []string{"--over", "care.response=10h..30h", "--blocks", "4", "--part", "1/1"}, formats: []string{"out"}, seeded: true},
	{name: "rank", input: "site.toml", formats: []string{"html", "json", "csv"}, seeded: true},
	{name: "lesson", input: "site.toml", formats: []string{"html"}, seeded: true},
	{name: "plan", input: "site.toml", flags: []string{"--choice", "mirror"}, formats: []string{"html", "json"}, seeded: true},
	{name: "replay", input: "site.toml", flags: []string{"--choice", "mirror", "--lives", "1"}, formats: []string{"html"}, seeded: true},
	{name: "now", input: "site.toml", flags: []string{"--choice", "mirror", "--drill"}, formats: []string{"html", "json"}, seeded: true},
	{name: "now", flags: []string{"--fleet", "fleet"}, formats: []string{"html", "json", "csv", "xlsx"}, seeded: true},
	{name: "desk", input: "site.toml", formats: []string{"html"}},
	{name: "fit", input: "record.csv", formats: []string{"html", "json"}},
	{name: "help", flags: []string{"site"}},
	{name: "licences"},
	{name: "completion", flags: []string{"bash"}},
	{name: "man"},
}

func TestFaultsReachEveryCommand(t *testing.T) {
	for _, c := range (program{}).commands() {
		if !slices.ContainsFunc(faultCommands, func(f faultCommand) bool { return f.name == c.Name }) {
			t.Errorf("no fault is made for %s", c.Name)
		}
	}
}

// TestFaults makes every third fault happen to compare, which has every kind of output; with
// make thorough every fault, with -all to every command, fit among them, which reads another
// kind of input.
func TestFaults(t *testing.T) {
	if testing.Short() {
		t.Skip("faults take half a minute, and one command alone seven seconds")
	}
	// Under nohup SIGHUP is ignored here, and would be in every program started; one
	// that is caught has its usual effect there.
	caught := make(chan os.Signal, 1)
	signal.Notify(caught, syscall.SIGHUP)
	t.Cleanup(func() { signal.Stop(caught) })
	for _, c := range faultCommands {
		if !*all && c.name != "compare" {
			continue
		}
		t.Run(strings.Join(append([]string{c.name}, c.flags...), " "), func(t *testing.T) {
			t.Parallel()
			want := newFaultRun(t, c)
			if got := undisturbed(want); got.status != 0 {
				t.Fatalf("undisturbed: status %d: %s", got.status, got.stderr)
			}
			for i, p := range faultPromises {
				if !p.of(c) || !*all && !thorough.Part(i, 3) {
					continue
				}
				t.Run(p.fault, func(t *testing.T) {
					r := newFaultRun(t, c)
					r.new = want.outputs()
					p.check(r, p.run(r))
				})
			}
		})
	}
}

// check looks whether a promise is kept.
func (p promise) check(r *faultRun, got faultOutcome) {
	r.Helper()
	if p.status != anyStatus && got.status != p.status {
		r.Errorf("exit status %d, promised is %d\n%s", got.status, p.status, got.stderr)
	}
	if state := r.state(); !writesFiles(r.command) {
		// What it says is all that it gives.
	} else if p.files == "old or new" && state != "old" && state != "new" || p.files != "old or new" && state != p.files {
		r.Errorf("files are %s, promised is %s\n%s", state, p.files, got.stderr)
	}
	r.checkFolder()
	r.checkOutcome(got, p.status)
}
