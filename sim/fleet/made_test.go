package fleet

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/state/folder"
	"arrayodds/sim/engine"
)

// madeChoices are the demo's, with their drives and hot spares.
var madeChoices = []struct {
	label          string
	drives, spares int
}{
	{"RAID 5, 6 x 18 TB", 6, 0}, {"RAID 5, 8 x 8 TB", 8, 0}, {"RAID 10, 8 x 12 TB", 8, 0},
	{"RAID 6, 7 x 18 TB, hot spare", 7, 1}, {"RAID 60, 2 x 6 x 12 TB", 12, 0}, {"Erasure code 8+3, 11 x 12 TB", 11, 0},
}

// makeFleet writes a fleet of so many arrays of so many sites into a folder: the demo, with
// names and responses of their own, ages up to five years, a tenth of the drives replaced
// since, and one in 33 arrays in trouble.
func makeFleet(tb testing.TB, arrays, sites int) string {
	tb.Helper()
	dir := tb.TempDir()
	demo, err := os.ReadFile("../../testdata/saltmarsh.toml")
	if err != nil {
		tb.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			tb.Fatal(err)
		}
	}
	for s := range sites {
		if err := os.Mkdir(filepath.Join(dir, fmt.Sprintf("site%03d", s)), 0o755); err != nil {
			tb.Fatal(err)
		}
		text := strings.Replace(string(demo), "Saltmarsh ferry terminal", fmt.Sprintf("Terminal %d", s), 1)
		text = strings.Replace(text, "count = 24", fmt.Sprintf("count = %d", 18+s%7), 1)
		write(fmt.Sprintf("site%03d/site.toml", s), text)
	}
	for i := range arrays {
		c := madeChoices[rnd.IntN(len(madeChoices))]
		var b strings.Builder
		age := 24 * (30 + rnd.IntN(1800))
		fmt.Fprintf(&b, "choice = %q\nage = \"%d h\"\nwhen = \"Tue 03:00\"\n", c.label, age)
		down := 0
		if i%33 == 0 {
			down = 1 + rnd.IntN(c.drives)
			if rnd.IntN(2) == 0 {
				fmt.Fprintf(&b, "technician_in = \"%d h\"\n", 4+rnd.IntN(60))
			}
		}
		for d := 1; d <= c.drives; d++ {
			switch {
			case d == down && i%2 == 0:
				fmt.Fprintf(&b, "[[drives]]\nnumber = %d\nstate = \"down\"\ndown_for = \"%d h\"\n", d, 1+rnd.IntN(20))
			case d == down:
				fmt.Fprintf(&b, "[[drives]]\nnumber = %d\nstate = \"rebuilding\"\nrebuilt = \"%d %%\"\n", d, rnd.IntN(90))
			case rnd.IntN(10) == 0:
				fmt.Fprintf(&b, "[[drives]]\nnumber = %d\nage = \"%d h\"\n", d, rnd.IntN(age))
			}
		}
		write(fmt.Sprintf("site%03d/array%05d%s", i%sites, i, folder.Ending), b.String())
	}
	return dir
}

func readMade(tb testing.TB, dir string, opt engine.Options) Request {
	f, err := folder.Read(context.Background(), os.DirFS(dir), "made")
	if err != nil {
		tb.Fatal(err)
	}
	return Asked("made", f, opt)
}

func usual() engine.Options {
	return engine.Options{Seed: DefaultSeed, Accuracy: DefaultAccuracy, MaxTrials: DefaultMaxTrials}
}

// A fleet of 10 000 arrays at 200 sites, 3 % of them in trouble, is to take less than 60 s
// on two processors, the reading of its files with it.
func BenchmarkFleet(b *testing.B) {
	dir := makeFleet(b, 10_000, 200)
	for b.Loop() {
		if _, err := Ask(context.Background(), readMade(b, dir, usual())); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/10k-arrays")
}

// The reading alone.
func BenchmarkReading(b *testing.B) {
	dir := makeFleet(b, 1_000, 20)
	for b.Loop() {
		readMade(b, dir, usual())
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/1k-arrays")
}
