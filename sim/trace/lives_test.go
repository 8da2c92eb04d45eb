package trace

import (
	"context"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"

	"pgregory.net/rapid"
)

// What holds for any life of any site.
func TestLivesHoldTogether(t *testing.T) {
	simtest.CheckSites(t, 80, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		if rapid.Bool().Draw(t, "waits without chance") {
			choice.Care.Notice, choice.Care.Response = array.Fixed{Hours: 10}, array.Fixed{Hours: 90}
		}
		sys, err := model.New(site, choice)
		if err != nil {
			t.Fatal(err)
		}
		only := rapid.Bool().Draw(t, "only losses")
		lives, err := Run(context.Background(), site, choice, 10, only, engine.Options{Seed: 1, Accuracy: 0.2, MaxTrials: 512})
		if errors.Is(err, ErrNoLoss) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range lives.Lives {
			if only && !l.Lost {
				t.Fatal("a life without a loss")
			}
			c := &checked{t, sys, &l}
			c.spans()
			c.events()
			c.defects()
			c.held()
		}
	})
}

type checked struct {
	*rapid.T
	sys *model.System
	*Life
}

// spans cover each bay, and no group that is up has more drives down than it
// tolerates.
func (l *checked) spans() {
	at, bay := l.Horizon, -1
	var last Span
	for _, s := range l.Spans {
		if s.Bay != bay {
			if at != l.Horizon || s.Bay != bay+1 || s.From != 0 || s.State != Running || s.Drive != 1 {
				l.Fatalf("bay %d ends at %v, and then comes %+v", bay, at, s)
			}
			last = Span{Drive: 1, State: Down}
		}
		if s.Bay == bay && s.From != at || s.To <= s.From || s.State == last.State || s.Drive < last.Drive || s.Drive > last.Drive+1 {
			l.Fatalf("after %+v comes %+v", last, s)
		}
		if l.sys.Repair.Restore == nil && s.State == Waiting {
			if n, r := l.sys.Repair.Notice, l.sys.Repair.Response.Law; fixed(n) && fixed(r) && s.To-s.From > n.Mean()+r.Mean()+1e-6 {
				l.Fatalf("a wait of %v hours", s.To-s.From)
			}
		}
		at, bay, last = s.To, s.Bay, s
	}
	if at != l.Horizon || bay != l.Bays-1 {
		l.Fatalf("bay %d of %d ends at %v", bay, l.Bays, at)
	}
	for _, s := range l.Spans {
		if s.State == Running || s.State == Down {
			continue
		}
		middle := (s.From + s.To) / 2
		down, rebuilding := 0, 0
		for _, o := range l.Spans {
			if o.Bay/l.DrivesInGroup == s.Bay/l.DrivesInGroup && o.From <= middle && middle < o.To && o.State != Running {
				down++
				if o.State == Rebuilding {
					rebuilding++
				}
			}
		}
		if down > l.Tolerance || rebuilding > 1 && !l.sys.Repair.Parallel {
			l.Fatalf("%d drives of a group are down at %v, %d of them in rebuild", down, middle, rebuilding)
		}
	}
}

func fixed(t law.Time) bool {
	_, ok := t.(law.Fixed)
	return ok
}

// events come in order, a rebuild ends when it was to end, and the losses are
// those that the life speaks of.
func (l *checked) events() {
	until := map[int]float64{}
	before, destroyed := 0.0, 0.0
	first := math.NaN()
	for i, e := range l.Events {
		if e.At < before || e.At >= l.Horizon || e.DownInGroup < 0 || e.DownInGroup > l.DrivesInGroup || !(e.Destroyed >= 0) {
			l.Fatalf("event %d is %+v", i, e)
		}
		switch e.Kind {
		case history.Rebuilds:
			until[e.Bay] = e.Until
		case history.Restored:
			if math.Abs(until[e.Bay]-e.At) > 1e-6 {
				l.Fatalf("a rebuild that should last until %v ends at %v", until[e.Bay], e.At)
			}
		case history.LosesSet:
			if math.IsNaN(first) {
				first = e.At
			}
			if l.Tolerance > 0 && e.DownInGroup <= l.Tolerance != e.BySector {
				l.Fatalf("with %d drives down: %+v", e.DownInGroup, e)
			}
		case history.MeetsDefects, history.MeetsSector:
			if e.Count < 1 || e.DownInGroup != l.Tolerance {
				l.Fatalf("event %d is %+v", i, e)
			}
			if l.sys.Stop && (l.Events[i+1].Kind != history.LosesSet || !l.Events[i+1].BySector || l.Events[i+1].At != e.At) {
				l.Fatalf("under stop %+v is survived", e)
			}
		}
		before = e.At
		destroyed += e.Destroyed
	}
	if l.Lost == math.IsNaN(l.FirstLoss) || l.Lost && l.FirstLoss != first || !l.Lost && !math.IsNaN(first) {
		l.Fatalf("lost: %v, first at %v, by the events at %v", l.Lost, l.FirstLoss, first)
	}
	if math.Abs(destroyed-l.Destroyed) > 1e-9*destroyed {
		l.Fatalf("%v camera-hours are destroyed, by the events %v", l.Destroyed, destroyed)
	}
}

// defects lie on running drives. Those met are as many as events say, and when a
// group at its tolerance goes on under stop there are none.
func (l *checked) defects() {
	type moment struct {
		at    float64
		group int
	}
	met := map[moment]int{}
	before := 0.0
	for _, d := range l.Defects {
		if d.From < before || d.To <= d.From {
			l.Fatalf("after %v comes %+v", before, d)
		}
		before = d.From
		if d.Met {
			met[moment{d.To, d.Bay / l.DrivesInGroup}]++
		}
		ok := false
		for _, s := range l.Spans {
			ok = ok || s.Bay == d.Bay && s.State == Running && s.From <= d.From && d.To <= s.To
		}
		if !ok {
			l.Fatalf("%+v does not lie on a running drive", d)
		}
	}
	for i, e := range l.Events {
		switch e.Kind {
		case history.MeetsDefects:
			m := moment{e.At, e.Group}
			if met[m] != e.Count {
				l.Fatalf("%d defects are met, and %+v", met[m], e)
			}
			delete(met, m)
		case history.Fails:
			if l.sys.Stop && e.DownInGroup == l.Tolerance && l.goesOn(i) {
				for _, d := range l.Defects {
					if d.Bay/l.DrivesInGroup == e.Group && d.From < e.At && e.At < d.To {
						l.Fatalf("%+v is not met by %+v", d, e)
					}
				}
			}
		}
	}
	if len(met) > 0 {
		l.Fatalf("defects are met at %v, and no event says so", met)
	}
}

// goesOn says whether the set of an event's drive is not lost at that moment.
func (l *checked) goesOn(i int) bool {
	for _, e := range l.Events[i:] {
		if e.At == l.Events[i].At && e.Kind == history.LosesSet && e.Set == l.Events[i].Set {
			return false
		}
	}
	return true
}

// held goes from 0 over the life, never beyond a full ring, and falls by what a
// loss destroys.
func (l *checked) held() {
	rate, full := 0.0, 0.0
	for _, r := range l.sys.Footage.Rings() {
		rate += r.Rate
		full += r.Rate * r.Held
	}
	if rate == 0 {
		if l.Held != nil {
			l.Fatal("footage without cameras")
		}
		return
	}
	full /= rate
	n := len(l.Held)
	if n < 2 || l.Held[0] != (Held{}) || l.Held[n-1].At != l.Horizon {
		l.Fatalf("held: %v", l.Held)
	}
	for i, h := range l.Held {
		if h.Hours < 0 || h.Hours > full*(1+1e-9) || i > 0 && h.At < l.Held[i-1].At {
			l.Fatalf("of %v: %+v", full, h)
		}
	}
	lost := map[float64]float64{}
	for _, e := range l.Events {
		if e.Kind == history.LosesSet {
			lost[e.At] += e.Destroyed / rate
		}
	}
	for at, hours := range lost {
		if d := l.heldAt(at, false) - l.heldAt(at, true) - hours; math.Abs(d) > 0.01*full {
			l.Fatalf("a loss at %v takes %v hours of %v, but by what is held %v more", at, hours, full, d)
		}
	}
}

// heldAt is the footage just before or just after a time.
func (l *checked) heldAt(at float64, after bool) float64 {
	for i := 1; i < len(l.Held); i++ {
		a, b := l.Held[i-1], l.Held[i]
		if b.At > at || b.At == at && (!after || i == len(l.Held)-1) {
			if a.At == b.At {
				return a.Hours
			}
			return a.Hours + (b.Hours-a.Hours)*(at-a.At)/(b.At-a.At)
		}
	}
	return l.Held[len(l.Held)-1].Hours
}

func TestLivesAreReproducible(t *testing.T) {
	sites, accuracy := []int{3, 5, 8}, 0.1 // spares; stop; common cause
	if !thorough.Asked() {
		sites, accuracy = sites[:1], 0.2
	}
	for _, of := range sites {
		site, choice := simtest.OftenFailing()
		simtest.Sites[of].Make(&site, &choice)
		simulate := func(n int, only bool, workers int) Lives {
			l, err := Run(context.Background(), site, choice, n, only, engine.Options{Seed: 5, Accuracy: accuracy, MaxTrials: 20000, Workers: workers})
			if err != nil {
				t.Fatal(err)
			}
			for i := range l.Lives { // NaN is not itself
				if !l.Lives[i].Lost {
					l.Lives[i].FirstLoss = 0
				}
			}
			return l
		}
		for _, only := range []bool{false, true} {
			one := simulate(20, only, 1)
			if two := simulate(20, only, 3); !reflect.DeepEqual(one, two) {
				t.Errorf("%s: other lives with other workers", simtest.Sites[of].Name)
			}
			r, err := sim.Run(context.Background(), site, choice, engine.Options{Seed: 5, Accuracy: accuracy, MaxTrials: 20000})
			if err != nil || r.LossChance != one.LossChance {
				t.Errorf("%s: a loss chance of %v, by Run %v", simtest.Sites[of].Name, one.LossChance, r.LossChance)
			}
		}
		if few, more := simulate(3, false, 1), simulate(20, false, 1); !reflect.DeepEqual(few.Lives, more.Lives[:3]) {
			t.Errorf("%s: asked for more, the first lives are others", simtest.Sites[of].Name)
		}
	}
}

// A sample that is too small says so; what cannot be kept is an error.
func TestLivesThatCannotBe(t *testing.T) {
	ctx := context.Background()
	opt := engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 256}
	site, choice := simtest.OftenFailing()
	l, err := Run(ctx, site, choice, MaxLives, true, opt)
	if err != nil || len(l.Lives) != MaxLives || len(l.Warnings) == 0 || !strings.Contains(l.Warnings[len(l.Warnings)-1], "for 100 lives it should be 2000") {
		t.Errorf("%d lives, %q, %v", len(l.Lives), l.Warnings, err)
	}
	for _, n := range []int{0, MaxLives + 1} {
		if _, err := Run(ctx, site, choice, n, false, opt); err == nil {
			t.Errorf("%d lives are given", n)
		}
	}

	never := choice
	never.Drive.Life = array.RateByYear{AFR: []float64{0}}
	if _, err := Run(ctx, site, never, 1, true, opt); !errors.Is(err, ErrNoLoss) || !strings.Contains(err.Error(), `"wild"`) {
		t.Errorf("drives that never fail: %v", err)
	}
	if l, err := Run(ctx, site, never, 1, false, opt); err != nil || len(l.Lives[0].Events) != 0 || l.Lives[0].Lost {
		t.Errorf("drives that never fail: %+v, %v", l, err)
	}

	var long *LongLifeError
	teeming := choice
	teeming.Drive.LatentMean = 2 // hours
	if _, err := Run(ctx, site, teeming, 1, false, opt); !errors.As(err, &long) || long.Choice != "wild" {
		t.Errorf("defects by the thousand: %v", err)
	}
	bits := choice
	bits.Layout, bits.Drive.ReadErrorBits = array.Layout{Level: array.RAID5}, 1e10
	if _, err := Run(ctx, site, bits, 1, false, opt); !errors.As(err, &long) {
		t.Errorf("read errors by the thousand: %v", err)
	}
	if thorough.Asked() { // goes up to the bound on a life's events
		holdsToItsBounds(t, site, choice, opt)
	}

	gone, cancel := context.WithCancel(ctx)
	cancel()
	for _, only := range []bool{false, true} {
		if _, err := Run(gone, site, choice, 1, only, opt); !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled: %v", err)
		}
	}
}

// holdsToItsBounds holds lives with as many events as are allowed against that they are
// refused.
func holdsToItsBounds(t *testing.T, site array.Site, choice array.Choice, opt engine.Options) {
	var long *LongLifeError
	ctx := context.Background()
	busy := choice
	busy.Layout, busy.Drives, busy.Groups = array.Layout{Level: array.JBOD}, 4, 1
	busy.Drive.Life = array.ConstantRate{AFR: 3000}
	busy.Care.Notice, busy.Care.Response = array.Fixed{}, array.Fixed{Hours: 1}
	opt.MaxTrials = 128
	short := site
	short.ServiceLife /= 2
	for _, only := range []bool{false, true} {
		if _, err := Run(ctx, short, busy, 1, only, opt); !errors.As(err, &long) {
			t.Errorf("failures by the thousand: %v", err)
		}
	}

	many := choice // more than 10 000 defects in each
	many.Drive.LatentMean = 8
	if _, err := Run(ctx, site, many, MaxLives, false, opt); !errors.As(err, &long) || !long.Together {
		t.Errorf("100 lives with defects by the thousand: %v", err)
	}
}
