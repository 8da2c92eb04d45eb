package main

import (
	"archive/zip"
	"encoding/csv"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/export/schematest"
)

// make soak says how long and from which seed on.
var (
	soakFor  = flag.Duration("soak", 0, "how long TestSoak draws new sites, commands and faults; 0: a few, and done")
	soakSeed = flag.Uint64("soakseed", 1, "the seed of the first of them; each has the next one")
)

// TestSoak draws a site, a command and a fault, one after the other, for as long as it is
// told, and looks at all that comes out each time. Each has a seed of its own, which its
// name ends in.
func TestSoak(t *testing.T) {
	if *soakFor == 0 {
		thorough.Only(t, "some seconds, and make test has faults of each kind")
	}
	caught := make(chan os.Signal, 1) // see TestFaults
	signal.Notify(caught, syscall.SIGHUP)
	t.Cleanup(func() { signal.Stop(caught) })
	setBack := ""
	if *soakFor > 0 {
		setBack = setBackProgram(t)
	}
	seen := map[string]int{}
	begin, few := time.Now(), uint64(4) // where no time is given
	for seed := *soakSeed; seed < *soakSeed+few || time.Since(begin) < *soakFor; seed++ {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			s := newSoak(t, seed)
			s.setBack = setBack
			ended := s.run()
			seen["all"]++
			seen["ended with "+strconv.Itoa(ended)]++
			seen[s.command.name]++
			seen["fault: "+s.fault.fault]++
			if t.Failed() {
				t.Logf("arrayodds %s\n%s\n%s\nagain: ARRAYODDS_THOROUGH=1 go test ./cmd/arrayodds -count 1 -run Soak -soakseed %d", strings.Join(s.args(s.command.input), " "), s.fault.fault, s.inputs[s.command.input], seed)
			}
		})
	}
	for _, what := range slices.Sorted(maps.Keys(seen)) {
		t.Logf("%6d %s", seen[what], what)
	}
	if *soakFor > 0 && seen["ended with 0"]*2 < seen["all"] {
		t.Error("most of what was drawn was refused, so that little was tried")
	}
}

// soak is a command on inputs that were drawn, and the fault that it is to meet.
type soak struct {
	*faultRun
	draw
	fault   promise
	setBack string // a folder with the program whose clock is set back, "" where there is none
}

func newSoak(t *testing.T, seed uint64) *soak {
	d := draw{rand.New(rand.NewPCG(seed, 0))}
	c := soakCommand(d)
	site := d.site()
	inputs := map[string]string{"site.toml": site, "record.csv": d.record(), "fleet/site.toml": site, "fleet/array.state.toml": faultState}
	s := &soak{draw: d, faultRun: newFaultRunOf(t, c, inputs)}
	faults := slices.DeleteFunc(slices.Concat(faultPromises, soakFaults), func(p promise) bool { return !p.of(c) })
	s.fault = faults[d.IntN(len(faults))]
	return s
}

// soakCommand draws a command with flags of its own.
func soakCommand(d draw) faultCommand {
	c := faultCommands[d.IntN(len(faultCommands))]
	c.flags = slices.Clone(c.flags)
	for i, flag := range c.flags {
		if flag == "mirror" { // which the site of the faults has
			c.flags[i] = "first"
		}
	}
	switch c.name {
	case "compare":
		if d.once(4) {
			c.flags = append(c.flags, "--plain")
		}
	case "size":
		c.formats = []string{"html", "json", "csv"}
		c.flags = append(c.flags, "--bays", strconv.Itoa(d.whole(1, 30)), "--spares", strconv.Itoa(d.IntN(3)))
	case "choose":
		c.flags = append(c.flags, "--bays", strconv.Itoa(d.whole(2, 10)))
	case "vary":
		c.flags = []string{"--points", strconv.Itoa(d.whole(2, 5)), "--over", d.of("care.response=4h..100h", "service_life=1y..6y", "drives.*.price=x0.5..x2", "choices.*.drives=2..12",
			"choices.*.layout=RAID 1,RAID 5,RAID 6", "care.unreadable=skip,stop", "hazards.common_cause.per_year=0..0.1")}
		if d.once(3) {
			c.flags = append(c.flags, "--resize")
		}
		if d.once(3) {
			c.flags = append(c.flags, "--target", "1 in 1000")
		}
	case "replay":
		c.flags = append(c.flags, d.of("--only-losses=true", "--only-losses=false"))
	}
	if c.seeded {
		c.flags = append(c.flags, "--accuracy", strconv.Itoa(d.whole(20, 80))+"%")
	}
	return c
}

// run runs the command undisturbed, twice, then with the fault, then undisturbed again,
// and returns the status of the first.
func (s *soak) run() int {
	r := s.faultRun
	first := undisturbed(r)
	s.checkSaid(first)
	r.checkFolder()
	if first.status != exitOK {
		if first.status != exitUsage || first.stdout != "" {
			r.Errorf("exit status %d, standard output %q, standard error %q", first.status, first.stdout, first.stderr)
		}
		if state := r.state(); writesFiles(r.command) && state != "old" {
			r.Errorf("exit status 2, and files are %s", state)
		}
		return first.status
	}
	r.new = r.outputs()
	s.checkOutputs()
	r.layOut()
	s.same("elsewhere and in another time", first, s.elsewhere())
	if r.Failed() {
		return first.status // what a fault leaves cannot be judged
	}
	for name := range r.new {
		r.check(os.Remove(r.path("out/" + name)))
	}
	r.Run(s.fault.fault, func(t *testing.T) {
		f := *r
		f.T = t
		f.old = map[string]string{}
		f.layOut()
		s.fault.check(&f, s.fault.run(&f))
	})
	r.pipes = nil
	s.same("after the fault", first, undisturbed(r))
	return first.status
}

// same looks whether another run gave what the first gave, to the byte.
func (s *soak) same(when string, first, again faultOutcome) {
	s.Helper()
	if again != first {
		s.Errorf("%s: exit status %d, was %d; standard output or error is another:\n%s%s", when, again.status, first.status, again.stdout, again.stderr)
	}
	if state := s.state(); writesFiles(s.command) && state != "new" {
		s.Errorf("%s: files are %s", when, state)
	}
	s.checkFolder()
}

// elsewhere runs the command with another number of workers, little memory, in another
// time zone and language, and with a clock that was set back: its files are of a time to
// come, and in a long soak it falls further with each look at it.
func (s *soak) elsewhere() faultOutcome {
	ahead := time.Date(2101, 2, 3, 4, 5, 6, 0, time.UTC)
	for _, dir := range []string{".", "out"} {
		entries, err := os.ReadDir(s.path(dir))
		s.check(err)
		for _, e := range entries {
			s.check(os.Chtimes(s.path(dir+"/"+e.Name()), ahead, ahead))
		}
	}
	c := s.cmd("")
	c.Env = append(os.Environ(), "GOMEMLIMIT=16MiB", "GOMAXPROCS="+strconv.Itoa(s.whole(1, 8)), "TZ="+s.of("Pacific/Kiritimati", "America/Noronha", "UTC"),
		"LC_ALL="+s.of("de_DE.UTF-8", "C", "tr_TR"), "SOURCE_DATE_EPOCH="+s.of("0", "9999999999"))
	if s.setBack != "" && s.command.name != "merge" { // which takes parts of its own build alone
		c.Path = filepath.Join(s.setBack, "arrayodds")
	}
	return s.wait(s.start(c), tooLong)
}

// checkSaid looks at the status and at standard error.
func (s *soak) checkSaid(got faultOutcome) {
	s.Helper()
	if got.status < exitOK || got.status > exitUsage || (got.status == exitOK) != (got.stderr == "") || strings.Contains(got.stderr, "goroutine ") {
		s.Errorf("exit status %d, standard error %q", got.status, got.stderr)
	}
	if strings.Contains(got.stdout, "NaN") || strings.Contains(got.stdout, "%!") {
		s.Errorf("it says:\n%s", got.stdout)
	}
}

// checkOutputs looks at each file that was written, by its format.
func (s *soak) checkOutputs() {
	s.Helper()
	for _, f := range s.command.formats {
		name := "x." + f
		text, written := s.new[name]
		var err error
		switch f {
		case "json":
			kind := s.command.name
			switch {
			case slices.Contains(s.command.flags, "--drill"):
				kind = "drill"
			case slices.Contains(s.command.flags, "--fleet"):
				kind = "fleet"
			case kind == "merge":
				kind = "compare" // of which the part is
			}
			err = schematest.CheckExactly(kind, []byte(text))
		case "csv":
			_, err = csv.NewReader(strings.NewReader(text)).ReadAll()
			if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				err = fmt.Errorf("there is no number in it:\n%s", text)
			}
		case "xlsx":
			_, err = zip.NewReader(strings.NewReader(text), int64(len(text)))
		default:
			if !strings.HasSuffix(strings.TrimSpace(text), "</html>") {
				err = fmt.Errorf("it ends in %q", text[max(0, len(text)-40):])
			}
		}
		if err != nil || !written {
			s.Errorf("%s, written: %v: %v", name, written, err)
		}
	}
}
