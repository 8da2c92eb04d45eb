package main

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"arrayodds/array"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
)

const threeChoices = `
service_life = "5 y"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { afr = "1 %" }
transfer = "180 MB/s"
[[choices]]
label = "a"
drive = "4 TB"
layout = "RAID 1"
drives = 2
[[choices]]
label = "b"
drive = "4 TB"
layout = "RAID 1"
drives = 3
[[choices]]
label = "c"
drive = "4 TB"
layout = "JBOD"
drives = 1
`

type simulation = func(context.Context, array.Site, array.Choice, engine.Options) (sim.Result, error)

// run runs the command that the arguments name and returns the exit status.
// args[0] is the program's name.
func (p program) run(ctx context.Context, args []string) int {
	p.out, p.err = console.NewWriter(p.out), console.NewWriter(p.err)
	err := p.execute(ctx, args)
	p.report(err)
	return exitStatus(err)
}

// runProgram runs the program in a directory of its own with a simulation made up.
func runProgram(t *testing.T, ctx context.Context, simulate simulation, args ...string) (status int, errText string) {
	t.Helper()
	t.Chdir(t.TempDir())
	var out, errOut strings.Builder
	p := program{in: strings.NewReader(threeChoices), out: &out, err: &errOut, simulate: simulate}
	return p.run(ctx, append([]string{"arrayodds"}, args...)), errOut.String()
}

// filesHere returns the names of the files in the directory, hidden ones too.
func filesHere(t *testing.T) string {
	t.Helper()
	names, err := filepath.Glob("*")
	if err != nil {
		t.Fatal(err)
	}
	hidden, err := filepath.Glob(".*")
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(append(names, hidden...), " ")
}

// result returns a made-up result that is told from others by its number of trials.
func result(trials int) sim.Result {
	return sim.Result{LossChance: estimate.Estimate{Value: 0.1, Low: 0.1, High: 0.1}, Trials: trials, StoppedBy: engine.ByAccuracy}
}

func TestOutcomesComeInTheOrderOfTheFile(t *testing.T) {
	var begun sync.WaitGroup // a and b wait for c, so that it is done first
	begun.Add(1)
	procs := runtime.GOMAXPROCS(0)
	simulate := func(_ context.Context, _ array.Site, c array.Choice, opt engine.Options) (sim.Result, error) {
		if opt.Workers != 3 || opt.Seed != 9 || opt.Accuracy != 0.2 || opt.MaxTrials != 5000 || !opt.Plain || opt.Progress != nil {
			t.Errorf("options %+v", opt)
		}
		if now := runtime.GOMAXPROCS(0); now != procs {
			t.Errorf("the processors of the whole process are %d during the run, they were %d", now, procs)
		}
		if cap(opt.Slots) != 3 {
			t.Errorf("%d workers may work at a time, 3 were asked for", cap(opt.Slots))
		}
		if c.Label == "c" {
			begun.Done()
		}
		begun.Wait()
		return result(int(c.Label[0])), nil
	}
	status, text := runProgram(t, t.Context(), simulate, "compare", "-", "--html", "x.html", "--json", "x.json", "--workers", "3", "--seed", "9", "--accuracy", "20 %", "--max-trials", "5e3", "--plain")
	if status != exitOK {
		t.Fatalf("status %d: %s", status, text)
	}
	data, err := os.ReadFile("x.json")
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Choices []struct {
			Label  string
			Trials int
		}
	}
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	for i, c := range got.Choices {
		if want := string(rune('a' + i)); c.Label != want || c.Trials != 'a'+i {
			t.Errorf("choice %d is %+v", i, c)
		}
	}
}

// tooBusy is a choice that is too busy to be simulated, as sim.Run tells it.
func tooBusy(c array.Choice) (sim.Result, error) {
	busy := &engine.BusyError{Choice: c.Label, Failures: 440}
	return sim.TooBusy(busy), busy
}

// One choice that is too busy to be simulated is marked in every output, behind
// the others, which are compared all the same.
func TestBusyChoiceIsMarked(t *testing.T) {
	simulate := func(_ context.Context, _ array.Site, c array.Choice, _ engine.Options) (sim.Result, error) {
		if c.Label == "b" {
			return tooBusy(c)
		}
		r := result(1)
		r.LossCurve = []sim.CurvePoint{{Years: 5, Estimate: r.LossChance}}
		return r, nil
	}
	t.Chdir(t.TempDir())
	var out, errOut strings.Builder
	p := program{in: strings.NewReader(threeChoices), out: &out, err: &errOut, simulate: simulate}
	status := p.run(t.Context(), strings.Fields("arrayodds compare - --html x.html --json x.json --csv x.csv --xlsx x.xlsx"))
	if status != exitOK || errOut.Len() > 0 {
		t.Fatalf("status %d: %s", status, errOut.String())
	}
	table := out.String()
	if a, b, c := strings.Index(table, "\na "), strings.Index(table, "\nb "), strings.Index(table, "\nc "); !(0 < a && a < c && c < b) {
		t.Errorf("the busy choice is not behind the others:\n%s", table)
	}
	const why = "its drives fail about 440 times in the service life"
	if squeezed := strings.Join(strings.Fields(table), " "); !strings.Contains(squeezed, "! not known") || !strings.Contains(squeezed, "! b: not simulated: "+why) {
		t.Errorf("the table does not say so:\n%s", table)
	}
	read := func(name string) string {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	page := read("x.html")
	for _, says := range []string{"<strong>not simulated</strong>", "Warning: not simulated: " + why, "bound on work", "Not drawn, as not simulated: 2 · b."} {
		if !strings.Contains(page, says) {
			t.Errorf("the page does not say %q", says)
		}
	}
	if words, _, _ := strings.Cut(page, "<script>"); strings.Contains(words, "NaN") {
		t.Error("the page shows NaN")
	}
	var got struct {
		Choices []map[string]any
	}
	if err := json.Unmarshal([]byte(read("x.json")), &got); err != nil {
		t.Fatal(err)
	}
	busy := got.Choices[1]
	if busy["stopped_by"] != "bound" || got.Choices[0]["stopped_by"] != "accuracy" {
		t.Errorf("stopped by %v and %v", got.Choices[0]["stopped_by"], busy["stopped_by"])
	}
	for _, key := range []string{"loss_chance", "any_loss_chance", "loss_events_mean", "rebuilds_per_year", "drives_replaced_95"} {
		if value, given := busy[key]; !given || value != nil {
			t.Errorf("%s is %v, want null", key, value)
		}
	}
	rows := strings.Split(read("x.csv"), "\r\n")
	if !strings.HasPrefix(rows[2], "b,RAID 1,4 TB,3,1,0,4,,,,") || !strings.Contains(rows[2], ",0,bound,\"not simulated: ") {
		t.Errorf("its row is %s", rows[2])
	}
}

// Where every choice is too busy there is nothing to compare, and all are named.
func TestOnlyBusyChoicesAreRefused(t *testing.T) {
	simulate := func(_ context.Context, _ array.Site, c array.Choice, _ engine.Options) (sim.Result, error) {
		return tooBusy(c)
	}
	status, text := runProgram(t, t.Context(), simulate, "compare", "-", "--json", "x.json")
	if status != exitUsage || strings.Count(text, "more than can be simulated") != 3 {
		t.Errorf("status %d: %s", status, text)
	}
	if names := filesHere(t); names != "" {
		t.Errorf("left behind: %s", names)
	}
}

func TestFailedSimulationWritesNothing(t *testing.T) {
	simulate := func(_ context.Context, _ array.Site, c array.Choice, _ engine.Options) (sim.Result, error) {
		if c.Label == "b" {
			return sim.Result{}, errors.New("a made-up fault")
		}
		return result(1), nil
	}
	status, text := runProgram(t, t.Context(), simulate, "compare", "-", "--json", "x.json")
	if status != exitFailed || text != "arrayodds: choice \"b\": a made-up fault\n" {
		t.Errorf("status %d: %s", status, text)
	}
	if names := filesHere(t); names != "" {
		t.Errorf("left behind: %s", names)
	}
}

func TestInterruptedSimulationWritesNothing(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	simulate := func(ctx context.Context, _ array.Site, c array.Choice, _ engine.Options) (sim.Result, error) {
		if c.Label == "c" {
			interrupt()
		}
		<-ctx.Done() // the others are in the midst of it
		return sim.Result{}, ctx.Err()
	}
	status, text := runProgram(t, ctx, simulate, "compare", "-", "--json", "x.json", "--workers", "3")
	if status != exitFailed || text != "arrayodds: stopped; nothing was written\n" {
		t.Errorf("status %d: %s", status, text)
	}
	if names := filesHere(t); names != "" {
		t.Errorf("left behind: %s", names)
	}
}

// An interrupt that comes when all is simulated still comes in time.
func TestInterruptedBeforeWriting(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	simulate := func(_ context.Context, _ array.Site, c array.Choice, _ engine.Options) (sim.Result, error) {
		if c.Label == "c" {
			interrupt()
		}
		return result(1), nil
	}
	status, text := runProgram(t, ctx, simulate, "compare", "-", "--json", "x.json", "--workers", "1")
	if status != exitFailed || !strings.Contains(text, "stopped") {
		t.Errorf("status %d: %s", status, text)
	}
	if names := filesHere(t); names != "" {
		t.Errorf("left behind: %s", names)
	}
}

// A directory that goes while the simulation runs: none of the files is written.
func TestFailedWritingWritesNothing(t *testing.T) {
	simulate := func(_ context.Context, _ array.Site, c array.Choice, _ engine.Options) (sim.Result, error) {
		if c.Label == "a" {
			if err := os.Remove("going"); err != nil {
				t.Error(err)
			}
		}
		return result(1), nil
	}
	t.Chdir(t.TempDir())
	if err := os.Mkdir("going", 0o755); err != nil {
		t.Fatal(err)
	}
	var out, errOut strings.Builder
	p := program{in: strings.NewReader(threeChoices), out: &out, err: &errOut, simulate: simulate}
	status := p.run(t.Context(), []string{"arrayodds", "compare", "-", "--html", "x.html", "--json", "going/x.json"})
	if status != exitFailed || !strings.Contains(errOut.String(), "going/x.json") {
		t.Errorf("status %d: %s", status, errOut.String())
	}
	if out.Len() > 0 {
		t.Errorf("said all the same: %s", out.String())
	}
	if names := filesHere(t); names != "" {
		t.Errorf("left behind: %s", names)
	}
}
