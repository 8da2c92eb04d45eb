package trace

import (
	"math"
	"slices"
	"testing"

	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat/distuv"
)

// six is a group of six drives with double parity that collect a defect each
// 500 hours.
func six(stop bool, scrub law.Time) *model.System {
	return &model.System{
		Horizon: 3000, Sets: 1, GroupsPerSet: 1, Drives: 6, Tolerance: 2, Degraded: []float64{1, 1, 1},
		Life: law.Constant{PerHour: 1e-6}, Stop: stop, LatentRate: 1.0 / 500, Scrub: scrub,
		Repair: model.Repair{Restore: law.Fixed(100)},
	}
}

var scrubs = []struct {
	name string
	law  law.Time
}{
	{"never", nil},
	{"fixed", law.Fixed(168)},
	{"Weibull", law.Weibull{Min: 6, Scale: 300, Shape: 3}},
	{"heavy", law.Lognormal{Mu: math.Log(50), Sigma: 1.5}},
}

// near fails where the mean of counts is not what is expected, within 4 standard
// errors.
func near(t *testing.T, what string, counts []float64, want float64) {
	t.Helper()
	sum, squares := 0.0, 0.0
	for _, x := range counts {
		sum += x
		squares += x * x
	}
	n := float64(len(counts))
	mean := sum / n
	se := math.Sqrt(max(squares/n-mean*mean, 1e-12) / n)
	if math.Abs(mean-want) > 4*se {
		t.Errorf("%s: %.4f ± %.4f, want %.4f", what, mean, se, want)
	}
}

func traceMany(t *testing.T, sys *model.System, events []history.Event, each func(Life)) {
	t.Helper()
	for k := range uint64(1000) {
		l, err := newLife(sys, &history.Record{Life: sys.Life, Rate: 1, Batch: 1, Events: events}, stream.New(1, k))
		if err != nil {
			t.Fatal(err)
		}
		each(l)
	}
}

func presentAt(l Life, at float64) (n float64) {
	for _, d := range l.Defects {
		if d.From < at && at < d.To {
			n++
		}
	}
	return n
}

// Defects on a drive are an M/G/∞ queue that begins empty: at any time there is
// a Poisson number of mean rate × E[min(dwell, time)] (Eick, Massey, Whitt, "The
// physics of the Mt/G/∞ queue", Operations Research 41(4), 1993; from memory).
func TestDefectsPresent(t *testing.T) {
	for _, s := range scrubs {
		sys := six(false, s.law)
		for _, at := range []float64{20, 200, 1500} {
			var counts, squares []float64
			traceMany(t, sys, nil, func(l Life) {
				n := presentAt(l, at)
				counts = append(counts, n)
				squares = append(squares, n*n)
			})
			mean := 6 * sys.Defects(at)
			near(t, s.name, counts, mean)
			near(t, s.name+", squares", squares, mean+mean*mean)
		}
	}
}

// Two drives fail and are restored. The four that run clear no defect until
// then.
var survived = []history.Event{
	{At: 1000, Kind: history.Fails, Bay: 0},
	{At: 1000, Kind: history.Rebuilds, Bay: 0, Until: 1100},
	{At: 1040, Kind: history.Fails, Bay: 3},
	{At: 1100, Kind: history.Restored, Bay: 0},
	{At: 1100, Kind: history.Rebuilds, Bay: 3, Until: 1200},
	{At: 1200, Kind: history.Restored, Bay: 3},
}

// Under skip all that is present when the group comes to its tolerance is met;
// under stop the group goes on, so nothing was. Either way that starts the count
// anew, and so does a rebuild.
func TestDefectsWhereAGroupGoesOn(t *testing.T) {
	for _, s := range scrubs {
		for _, stop := range []bool{false, true} {
			sys := six(stop, s.law)
			var met, present, before, after []float64
			traceMany(t, sys, survived, func(l Life) {
				n := 0.0
				for _, e := range l.Events {
					if e.Kind == history.MeetsDefects {
						n += float64(e.Count)
						if e.At != 1040 || e.DownInGroup != 2 {
							t.Fatalf("%+v", e)
						}
					}
				}
				met = append(met, n)
				before = append(before, presentAt(l, 1039.999999))
				present = append(present, presentAt(l, 1090))
				after = append(after, presentAt(l, 1250))
			})
			four, five := 4*sys.Defects(1040), 5*sys.Defects(1040)
			if stop {
				near(t, s.name+", met under stop", met, 0)
				near(t, s.name+", before", before, five-four) // on the drive that fails
			} else {
				near(t, s.name+", met", met, four)
				near(t, s.name+", before", before, five)
			}
			near(t, s.name+", since", present, 4*sys.Defects(50))
			near(t, s.name+", after the rebuilds", after, 6*sys.Defects(50))
		}
	}
}

// Where defects lost the set their number is Poisson on condition of not being
// 0, and the age of each has the density of E[min(dwell, age)], on the four
// drives alike.
func TestDefectsThatLost(t *testing.T) {
	events := []history.Event{
		{At: 200, Kind: history.Fails, Bay: 0},
		{At: 200, Kind: history.Rebuilds, Bay: 0, Until: 300},
		{At: 240, Kind: history.Fails, Bay: 3},
		{At: 240, Kind: history.MeetsDefects},
		{At: 240, Kind: history.LosesSet, Until: 400, BySector: true},
		{At: 400, Kind: history.StartsAgain},
	}
	for _, s := range scrubs {
		sys := six(true, s.law)
		var counts, ages, later []float64
		bays := map[int]float64{}
		traceMany(t, sys, events, func(l Life) {
			n := 0.0
			for _, d := range l.Defects {
				if d.Met {
					n++
					ages = append(ages, d.To-d.From)
					bays[d.Bay]++
				}
			}
			if e := l.Events[3]; e.Kind != history.MeetsDefects || float64(e.Count) != n || n == 0 {
				t.Fatalf("%v met, %+v", n, e)
			}
			counts = append(counts, n)
			later = append(later, presentAt(l, 500))
		})
		mean := 4 * sys.Defects(240)
		near(t, s.name, counts, mean/-math.Expm1(-mean))
		near(t, s.name+", when started again", later, 6*sys.Defects(100))
		slices.Sort(ages)
		d := 0.0
		for i, a := range ages {
			f := sys.Defects(a) / sys.Defects(240)
			d = max(d, f-float64(i)/float64(len(ages)), float64(i+1)/float64(len(ages))-f)
		}
		// Kolmogorov's limit law, its first term.
		if p := 2 * math.Exp(-2*d*d*float64(len(ages))); p < 1e-4 {
			t.Errorf("%s: ages are %.3f from their law, of chance %.2g", s.name, d, p)
		}
		sum, want := 0.0, float64(len(ages))/4
		for _, bay := range []int{1, 2, 4, 5} {
			sum += (bays[bay] - want) * (bays[bay] - want) / want
		}
		if p := (distuv.ChiSquared{K: 3}).Survival(sum); p < 1e-4 {
			t.Errorf("%s: on bays %v", s.name, bays)
		}
	}
}

// Read errors fall at their rate while the group is at its tolerance and a
// rebuild runs: 60 of the 100 hours of the first rebuild, which is the only one
// for all of them.
func TestSectorsMet(t *testing.T) {
	sys := six(false, nil)
	sys.LatentRate, sys.ReadErrors = 0, 0.7
	var counts, times []float64
	traceMany(t, sys, survived, func(l Life) {
		n := 0.0
		for _, e := range l.Events {
			if e.Kind == history.MeetsSector {
				n++
				times = append(times, e.At)
				if e.Bay != 0 || e.At < 1040 || e.At > 1100 || e.Count != 1 {
					t.Fatalf("%+v", e)
				}
			}
		}
		counts = append(counts, n)
	})
	near(t, "read errors", counts, 0.7*0.6)
	near(t, "their times", times, 1070)
}

// Two groups of a set fail to their tolerance at once, and defects of one lose
// it. The group that is looked at first had none; of one behind, nothing is
// known.
func TestDefectsOfOtherGroupsOfALostSet(t *testing.T) {
	for loser := range 2 {
		sys := six(true, nil)
		sys.GroupsPerSet, sys.Tolerance = 2, 1
		other := 1 - loser
		events := []history.Event{
			{At: 240, Kind: history.CommonCause},
			{At: 240, Kind: history.Fails, Bay: 0},
			{At: 240, Kind: history.Fails, Bay: 6, Group: 1},
		}
		if loser == 1 {
			events = append(events, history.Event{At: 240, Kind: history.Rebuilds, Bay: 0, Until: 340})
		}
		events = append(events,
			history.Event{At: 240, Kind: history.MeetsDefects, Group: loser},
			history.Event{At: 240, Kind: history.LosesSet, Group: loser, Until: 400, BySector: true})
		var counts []float64
		traceMany(t, sys, events, func(l Life) {
			n := 0.0
			for _, d := range l.Defects {
				if d.To == 240 && d.Bay/6 == other && d.Bay != 6*other {
					n++
				}
			}
			counts = append(counts, n)
		})
		want := 0.0
		if other == 1 {
			want = 5 * sys.Defects(240)
		}
		near(t, "defects of the other group", counts, want)
	}
}
