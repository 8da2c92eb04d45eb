package sim

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"math"
	"reflect"
	"testing"
	"time"

	"arrayodds/array"

	"pgregory.net/rapid"
)

// Laws that hold for every site. The sites are drawn at random (siteOf), so that
// nobody's favourite case is what holds.

// draws checks a property of so many random sites: the same ones in every run,
// because chance is compared with chance here and four standard errors are
// passed now and then. -rapid.seed and -rapid.checks ask for others.
func draws(t *testing.T, checks int, property func(*rapid.T)) {
	t.Helper()
	given := map[string]bool{}
	flag.Visit(func(f *flag.Flag) { given[f.Name] = true })
	for name, value := range map[string]string{"rapid.seed": "1", "rapid.checks": fmt.Sprint(checks)} {
		if given[name] {
			continue
		}
		f := flag.Lookup(name)
		before := f.Value.String()
		if err := f.Value.Set(value); err != nil {
			t.Fatal(err)
		}
		defer f.Value.Set(before)
	}
	rapid.Check(t, property)
}

// siteOf draws a site and a choice that a reader of site files could give. Lives
// are short and waits long, so that a few lives show much.
func siteOf(t *rapid.T) (array.Site, array.Choice) {
	chance := func(what string) bool { return rapid.IntRange(0, 2).Draw(t, what) == 0 }
	between := func(what string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, what) }

	site := array.Site{
		ServiceLife: between("years", 0.5, 4) * array.HoursPerYear,
		Hazards:     array.Hazards{DegradedMultiplier: 1},
	}
	for range rapid.IntRange(0, 3).Draw(t, "camera groups") {
		site.Cameras = append(site.Cameras, array.Cameras{
			Count:       rapid.IntRange(1, 40).Draw(t, "cameras"),
			BitRate:     between("bit/s", 1e6, 8e6),
			HoursPerDay: between("hours a day", 1, 24),
			Activity:    between("activity", 0.1, 1),
			Retention:   between("days", 5, 90) * 24,
		})
	}
	if chance("shared hazards") {
		site.Hazards = array.Hazards{
			CommonPerYear:      between("events a year", 0, 1),
			CommonEachDrive:    between("each drive", 0, 0.4),
			DegradedMultiplier: between("degraded", 1, 3),
		}
	}
	choice := array.Choice{
		Label: "drawn",
		Drive: array.Drive{
			Capacity: between("TB", 2, 20) * array.TB, Life: lifeOf(t), HazardMultiplier: between("multiplier", 0.5, 2),
			Transfer: 200e6, Price: math.NaN(), Power: math.NaN(),
		},
		HotSpares: rapid.IntRange(0, 2).Draw(t, "hot spares"),
		Care: array.Care{
			Notice: timeOf(t, "notice", 20), Response: timeOf(t, "response", 150), Restock: timeOf(t, "restock", 300),
			RebuildShare: 0.5, RebuildFloor: 20e6,
			Parallel: chance("parallel"), Stop: chance("stop"),
		},
	}
	choice.Layout, choice.Drives, choice.Groups = layoutOf(t)
	if chance("latent defects") {
		choice.Drive.LatentMean = between("hours a defect", 3000, 50000)
		if !chance("never scrubbed") {
			choice.Care.Scrub = lawOf(t, "scrub", 400)
		}
	}
	if chance("read errors") {
		choice.Drive.ReadErrorBits = 1e15
	}
	if chance("frailty") {
		choice.Drive.BatchVariance = between("variance", 0.1, 1.5)
	}
	if chance("restore") {
		choice.Care.Restore = lawOf(t, "restore", 150)
	}
	if chance("recorder") {
		choice.Recorder = &array.Recorder{
			Price: math.NaN(), IdlePower: math.NaN(), SwapDown: between("swap", 0, 2),
			Supply: &array.Unit{PerYear: 0.1, Restore: 24, Redundant: chance("redundant")},
			Mains:  &array.Mains{PerYear: 2, Mean: 1, UPSBridges: between("battery", 0, 1)},
		}
	}
	return site, choice
}

func lifeOf(t *rapid.T) array.Life {
	afr := rapid.Float64Range(0.05, 0.8).Draw(t, "AFR")
	switch rapid.IntRange(0, 3).Draw(t, "life") {
	case 0:
		return array.ConstantRate{AFR: afr}
	case 1:
		return array.WeibullLife{Shape: rapid.Float64Range(0.7, 3).Draw(t, "shape"), Scale: array.HoursPerYear / afr}
	case 2:
		return array.RateByYear{AFR: []float64{afr, afr / 3, 2 * afr}}
	}
	k := float64(rapid.IntRange(0, 5).Draw(t, "failures"))
	return array.FieldRecord{Failures: k, DriveDays: (k + 0.5) * 365 / afr}
}

// lawOf draws a law with a typical length of some hours.
func lawOf(t *rapid.T, what string, hours float64) array.Time {
	hours *= rapid.Float64Range(0.2, 2).Draw(t, what)
	switch rapid.IntRange(0, 3).Draw(t, what+" law") {
	case 0:
		return array.Fixed{Hours: hours}
	case 1:
		return array.Exponential{Mean: hours}
	case 2:
		return array.WeibullTime{Min: hours / 4, Scale: hours, Shape: rapid.Float64Range(0.7, 3).Draw(t, what+" shape")}
	}
	return array.Lognormal{Median: hours, P90: hours * rapid.Float64Range(1.5, 4).Draw(t, what+" p90")}
}

// timeOf may be in open hours too, but for the notice, which may not.
func timeOf(t *rapid.T, what string, hours float64) array.Time {
	if what != "notice" && rapid.IntRange(0, 4).Draw(t, what+" in open hours") == 0 {
		return array.OpenHours{Within: hours / 8, Week: array.Week{{From: 8, To: 17}, {From: 32, To: 41}, {From: 80, To: 100}}}
	}
	return lawOf(t, what, hours)
}

func layoutOf(t *rapid.T) (array.Layout, int, int) {
	groups := rapid.IntRange(1, 3).Draw(t, "groups")
	l := array.Layout{Level: array.Level(rapid.IntRange(int(array.JBOD), int(array.Erasure)).Draw(t, "level"))}
	n := rapid.IntRange(4, 6).Draw(t, "drives in a group")
	switch l.Level {
	case array.RAID1:
		n = rapid.IntRange(2, 3).Draw(t, "copies")
	case array.RAID10:
		n = 4
	case array.RAID50, array.RAID60:
		groups = max(groups, 2)
	case array.Erasure:
		l.Parity = rapid.IntRange(1, 3).Draw(t, "parity")
		l.Data = n - l.Parity
	}
	return l, n * groups, groups
}

// few is as many lives as a property needs.
func few(seed uint64) Options { return Options{Seed: seed, Accuracy: 1e-6, MaxTrials: 1024} }

func run(t *rapid.T, site array.Site, choice array.Choice, opt Options) Result {
	r, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// noMore fails where a chance is above another one that it may at most reach.
func noMore(t *rapid.T, what string, less, more Estimate) {
	if less.Value-more.Value > withinErrors*math.Hypot(less.Value*less.RelativeError, more.Value*more.RelativeError)+1e-12*more.Value {
		t.Fatalf("%s: %.5g (%.2g) and %.5g (%.2g)", what, less.Value, less.RelativeError, more.Value, more.RelativeError)
	}
}

// Up to its first loss, a group that tolerates one failure more lives the same
// life; and when it is lost, one that tolerates less is lost already.
func TestMoreToleranceNeverRaisesRisk(t *testing.T) {
	draws(t, 30, func(t *rapid.T) {
		site, choice := siteOf(t)
		site.Cameras = nil // whose load on the drives would change with the layout
		n := rapid.IntRange(3, 6).Draw(t, "n")
		choice.Drives = n * choice.Groups
		parity := rapid.IntRange(1, min(2, n-2)).Draw(t, "less")
		risk := func(parity int, seed uint64) Estimate {
			choice.Layout = array.Layout{Level: array.Erasure, Data: n - parity, Parity: parity}
			return run(t, site, choice, few(seed)).LossChance
		}
		noMore(t, "one parity drive more", risk(parity+1, 1), risk(parity, 2))
	})
}

// A longer wait leaves more time for a further failure. For lives without memory
// this holds strictly. For others a drive in repair does not age, which is of a
// higher order: so lives are constant or wear out, and losses by unreadable
// sectors are left out, since there are as many of them as rebuilds.
func TestLongerRepairNeverLowersRisk(t *testing.T) {
	draws(t, 40, func(t *rapid.T) {
		site, choice := siteOf(t)
		site.Cameras, choice.Care.Stop = nil, false
		choice.Drive.Life = array.ConstantRate{AFR: rapid.Float64Range(0.02, 0.5).Draw(t, "AFR")}
		if shape := rapid.Float64Range(0.5, 2).Draw(t, "wear"); shape > 1 {
			choice.Drive.Life = array.WeibullLife{Shape: shape, Scale: 40000}
		}
		choice.Care.Restore = lawOf(t, "restore", 30)
		if rapid.Bool().Draw(t, "by steps") {
			choice.Care.Restore = nil
			choice.Care.Response = lawOf(t, "response", 30)
		}
		factor := rapid.Float64Range(1, 4).Draw(t, "longer by")
		quick := run(t, site, choice, few(1)).LossChance
		if choice.Care.Restore != nil {
			choice.Care.Restore = longer(choice.Care.Restore, factor)
		} else {
			choice.Care.Response = longer(choice.Care.Response, factor)
		}
		noMore(t, fmt.Sprintf("repair %g times as long", factor), quick, run(t, site, choice, few(2)).LossChance)
	})
}

func longer(t array.Time, by float64) array.Time {
	switch t := t.(type) {
	case array.Fixed:
		return array.Fixed{Hours: t.Hours * by}
	case array.Exponential:
		return array.Exponential{Mean: t.Mean * by}
	case array.WeibullTime:
		return array.WeibullTime{Min: t.Min * by, Scale: t.Scale * by, Shape: t.Shape}
	case array.Lognormal:
		return array.Lognormal{Median: t.Median * by, P90: t.P90 * by}
	}
	panic("no such law in these tests")
}

// Names, and what else is in the catalogue, change no digit.
func TestRelabellingChangesNothing(t *testing.T) {
	draws(t, 10, func(t *rapid.T) {
		site, choice := siteOf(t)
		other := choice
		other.Label, other.Drive.Label = "another", "renamed"
		site.Drives, site.Choices = []array.Drive{choice.Drive, other.Drive}, []array.Choice{choice, other}
		first := run(t, site, choice, few(3))
		site.Name = "elsewhere"
		site.Drives, site.Choices = []array.Drive{other.Drive, choice.Drive}, []array.Choice{other, choice}
		for i := range site.Cameras {
			site.Cameras[i].Label = fmt.Sprint("group ", i)
		}
		if second := run(t, site, other, few(3)); !reflect.DeepEqual(first, second) {
			t.Fatalf("renamed, %+v becomes %+v", first, second)
		}
	})
}

// The order of camera groups changes sums by their rounding only.
func TestOrderOfCamerasChangesNothing(t *testing.T) {
	draws(t, 20, func(t *rapid.T) {
		site, choice := siteOf(t)
		first := run(t, site, choice, few(4))
		site.Cameras = rapid.Permutation(site.Cameras).Draw(t, "order")
		second := run(t, site, choice, few(4))
		names, figures := estimates(first)
		_, others := estimates(second)
		for i := range figures {
			a, b := figures[i].Value, others[i].Value
			if math.Abs(a-b) > 1e-9*math.Max(math.Abs(a), math.Abs(b)) {
				t.Fatalf("%s is %v, reordered %v", names[i], a, b)
			}
		}
	})
}

// Up to the first incident nothing tells whether it will be skipped.
func TestFirstIncidentUnderStopAndSkip(t *testing.T) {
	draws(t, 40, func(t *rapid.T) {
		site, choice := siteOf(t)
		choice.Drive.LatentMean = rapid.Float64Range(3000, 500000).Draw(t, "hours a defect")
		choice.Drive.ReadErrorBits = rapid.SampledFrom([]float64{0, 1e15, 1e16}).Draw(t, "bits an error")
		choice.Care.Stop = false
		skip := run(t, site, choice, few(5))
		choice.Care.Stop = true
		stop := run(t, site, choice, few(6))
		noMore(t, "first incident, skip and stop", skip.AnyLossChance, stop.AnyLossChance)
		noMore(t, "first incident, stop and skip", stop.AnyLossChance, skip.AnyLossChance)
		if math.Abs(stop.AnyLossChance.Value-stop.LossChance.Value) > 1e-9*stop.LossChance.Value {
			t.Fatalf("under stop every incident is a loss, but %v is not %v", stop.AnyLossChance, stop.LossChance)
		}
	})
}

func TestWorkersChangeNothing(t *testing.T) {
	draws(t, 15, func(t *rapid.T) {
		site, choice := siteOf(t)
		opt := few(7)
		opt.Plain = rapid.Bool().Draw(t, "plain")
		opt.Accuracy = rapid.SampledFrom([]float64{0.05, 1e-6}).Draw(t, "accuracy")
		opt.MaxTrials = 6000
		opt.Workers = 1
		alone := run(t, site, choice, opt)
		for _, workers := range []int{2, 7} {
			opt.Workers = workers
			if together := run(t, site, choice, opt); !reflect.DeepEqual(alone, together) {
				t.Fatalf("with %d workers %+v becomes %+v", workers, alone, together)
			}
		}
		opt.Seed++
		if other := run(t, site, choice, opt); other.DrivesReplaced == alone.DrivesReplaced && alone.DrivesReplaced.RelativeError > 0 {
			t.Fatal("another seed changes nothing")
		}
	})
}

// estimates lists every estimate of a result by name.
func estimates(r Result) (names []string, list []Estimate) {
	var walk func(name string, v reflect.Value)
	walk = func(name string, v reflect.Value) {
		switch x := v.Interface().(type) {
		case Estimate:
			names, list = append(names, name), append(list, x)
		case CurvePoint:
			walk(fmt.Sprintf("%s in %g years", name, x.Years), reflect.ValueOf(x.Estimate))
		default:
			switch v.Kind() {
			case reflect.Struct:
				for i := range v.NumField() {
					walk(name+" "+v.Type().Field(i).Name, v.Field(i))
				}
			case reflect.Slice:
				for i := range v.Len() {
					walk(name, v.Index(i))
				}
			}
		}
	}
	walk("", reflect.ValueOf(r))
	return names, list
}

func TestFiguresMakeSense(t *testing.T) {
	draws(t, 80, func(t *rapid.T) {
		site, choice := siteOf(t)
		opt := few(8)
		opt.Plain = rapid.IntRange(0, 3).Draw(t, "plain") == 0
		r := run(t, site, choice, opt)

		names, list := estimates(r)
		if len(list) < 19 {
			t.Fatalf("only %d estimates in a result", len(list))
		}
		for i, e := range list {
			if !(0 <= e.Low && e.Low <= e.Value && e.Value <= e.High) || math.IsInf(e.High, 0) || !(e.RelativeError >= 0) || math.IsInf(e.RelativeError, 0) {
				t.Fatalf("%s: %+v", names[i], e)
			}
		}
		chances := []Estimate{r.LossChance, r.AnyLossChance, r.LossChanceRetention, r.MissingClip,
			r.MissingByCause.Drives, r.MissingByCause.Unreadable, r.MissingByCause.Recorder, r.MissingByCause.Shortfall}
		before := 0.0
		for _, p := range r.LossCurve {
			chances = append(chances, p.Estimate)
			if p.Value < before {
				t.Fatalf("the curve falls to %v at %v years", p.Value, p.Years)
			}
			before = p.Value
		}
		for _, c := range chances {
			if c.High > 1 {
				t.Fatalf("a chance of %+v in %+v", c, r)
			}
		}
		last := r.LossCurve[len(r.LossCurve)-1]
		if !near(last.Value, r.LossChance.Value) || last.Years != site.ServiceLife/array.HoursPerYear {
			t.Fatalf("the curve ends with %+v, the loss chance is %+v", last, r.LossChance)
		}
		if r.LossChance.Value > r.AnyLossChance.Value*(1+1e-9) {
			t.Fatalf("a loss %v is likelier than an incident %v", r.LossChance.Value, r.AnyLossChance.Value)
		}
		if r.LossChance.Value > r.LossEvents.Value*(1+1e-9) || r.LossEvents.Value > r.Incidents.Value*(1+1e-9) {
			t.Fatalf("%v chance of a loss, %v losses, %v incidents", r.LossChance.Value, r.LossEvents.Value, r.Incidents.Value)
		}
		causes := r.MissingByCause
		sum := causes.Drives.Value + causes.Unreadable.Value + causes.Recorder.Value + causes.Shortfall.Value
		if !near(math.Min(1, sum), r.MissingClip.Value) {
			t.Fatalf("the causes %+v add up to %v, not %v", causes, sum, r.MissingClip.Value)
		}
		if r.HasCameras != (len(site.Cameras) > 0) {
			t.Fatalf("cameras: %v", r.HasCameras)
		}
		if r.LargestShare < 0 || r.LargestShare > 1+1e-9 || r.EffectiveSamples < 0 || r.EffectiveSamples > float64(r.Trials)*(1+1e-9) {
			t.Fatalf("diagnostics: %v effective samples, largest %v", r.EffectiveSamples, r.LargestShare)
		}
	})
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

// The retention horizon: 1 − exp(−losses × retention ÷ life), the longest
// retention of all camera groups.
func TestRetentionHorizon(t *testing.T) {
	draws(t, 20, func(t *rapid.T) {
		site, choice := siteOf(t)
		r := run(t, site, choice, few(9))
		longest := 0.0
		for _, c := range site.Cameras {
			longest = math.Max(longest, c.Retention)
		}
		part := longest / site.ServiceLife
		for _, c := range [][2]float64{
			{r.LossChanceRetention.Value, r.LossEvents.Value},
			{r.LossChanceRetention.Low, r.LossEvents.Low},
			{r.LossChanceRetention.High, r.LossEvents.High},
		} {
			if want := 1 - math.Exp(-c[1]*part); math.Abs(c[0]-want) > 1e-12 {
				t.Fatalf("%v losses, of which %v within a retention: %v, want %v", c[1], part, c[0], want)
			}
		}
	})
}

// Where drives do not age, a window anywhere in the life is like one at its
// start, but for what is under way when it opens: a restore of 48 h in 4 320 h.
func TestRetentionHorizonIsAWindowOfTheLife(t *testing.T) {
	site, choice := wild()
	choice.Drive.Life = array.ConstantRate{AFR: 0.05}
	choice.Care.Restore = array.Exponential{Mean: 24}
	site.Cameras[0].Retention = 180 * 24
	opt := Options{Seed: 1, Accuracy: -1, MaxTrials: 20000}
	whole, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	site.ServiceLife = site.Cameras[0].Retention
	window, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	a, b := whole.LossChanceRetention, window.LossChance
	agrees(t, "loss within one retention", simulated{a.Value, a.Value * a.RelativeError}, b.Value,
		withinErrors*b.Value*b.RelativeError+48.0/4320*b.Value)
}

func TestBudgetBoundsTrials(t *testing.T) {
	for _, budget := range []int{1000, 1024, 3000} {
		site, choice := wild()
		r, err := Run(context.Background(), site, choice, Options{Seed: 1, Accuracy: 1e-9, MaxTrials: budget})
		if err != nil {
			t.Fatal(err)
		}
		if r.StoppedBy != ByBudget || r.Trials > budget || r.Trials <= budget-blockTrials {
			t.Errorf("%d trials of %d, stopped by %s", r.Trials, budget, r.StoppedBy)
		}
	}
	site, choice := wild()
	r, err := Run(context.Background(), site, choice, Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e7})
	if err != nil {
		t.Fatal(err)
	}
	reach := z95 * r.LossChance.RelativeError
	if r.StoppedBy != ByAccuracy || reach > 0.1 || r.Trials >= 1e7 {
		t.Errorf("%d trials reach %v, stopped by %s", r.Trials, reach, r.StoppedBy)
	}
}

// A run that would take hours ends with the context's error, whether that ends
// before the run, within a round of trials or between two.
func TestCancelledRunEnds(t *testing.T) {
	site, choice := wild()
	endless := Options{Seed: 1, Accuracy: 1e-9, MaxTrials: 1e10}

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Run(ctx, site, choice, endless); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before: %v", err)
	}

	ctx, cancel = context.WithCancel(context.Background())
	rounds := 0
	opt := endless
	opt.Progress = func(Progress) {
		if rounds++; rounds == 2 {
			cancel()
		}
	}
	if _, err := Run(ctx, site, choice, opt); !errors.Is(err, context.Canceled) || rounds != 2 {
		t.Errorf("cancelled after 2 rounds: %v after %d", err, rounds)
	}

	ctx, cancel = context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	began := time.Now()
	if _, err := Run(ctx, site, choice, endless); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("past its deadline: %v", err)
	}
	if took := time.Since(began); took > 5*time.Second {
		t.Errorf("told to end after 50 ms, it took %v", took)
	}
}
