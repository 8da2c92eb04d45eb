package now

import (
	"context"
	"errors"
	"math"

	"arrayodds/array"
	"arrayodds/sim/engine"
	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

// mostDrillLives is how many lives are looked through for a bad day.
const mostDrillLives = 20_000

// ErrQuiet is a choice of which no simulated life had a bad day that the array stood.
var ErrQuiet = errors.New("no drive failed in the simulated lives, or what failed could not be stood, so there is no state to practise on")

// Drill draws a state to practise on from the simulated lives of a choice: a moment between
// the failure of a drive, each with the same chance, and its being restored. Lives that
// footage was lost in before are left out. The same seed draws the same state.
func Drill(ctx context.Context, site array.Site, choice array.Choice, opt engine.Options) (array.State, error) {
	sys, err := model.New(site, choice)
	if err != nil {
		return array.State{}, err
	}
	rnd := stream.New(opt.Seed, drillStream)
	simulator, sums := plain.New(sys), model.NewSums(sys)
	sums.MostWork, sums.FiguresOnly = engine.MaxRunWork, true
	defer context.AfterFunc(ctx, func() { sums.Stop.Store(true) })()
	for range mostDrillLives {
		var rec history.Record
		if !simulator.Trace(rnd, sums.Begin(), &rec) {
			if err := ctx.Err(); err != nil {
				return array.State{}, err
			}
			if rec.Full {
				continue
			}
			return array.State{}, ErrQuiet
		}
		sums.End()
		if s, ok := momentOf(sys, &rec, rnd); ok {
			return s, nil
		}
	}
	return array.State{}, ErrQuiet
}

// drillStream is the number of the stream of the lives of drills.
const drillStream = wholeStream + 1

// momentOf returns the state at a moment of a life at which a drive is down; false where
// there is none before the first loss.
func momentOf(sys *model.System, rec *history.Record, rnd *stream.Stream) (array.State, bool) {
	type outage struct{ from, to float64 }
	var outages []outage
	down := map[int]float64{}
	for _, e := range rec.Events {
		if e.Kind == history.LosesSet { // what it ends is not taken
			break
		}
		switch e.Kind {
		case history.Fails:
			down[e.Bay] = e.At
		case history.Restored:
			outages = append(outages, outage{down[e.Bay], e.At})
			delete(down, e.Bay)
		}
	}
	if len(outages) == 0 {
		return array.State{}, false
	}
	o := outages[rnd.Intn(len(outages))]
	return stateAt(sys, rec, o.from+rnd.Float64()*(o.to-o.from)), true
}

// stateAt returns the state of a life at a time, before its first loss. Times are whole
// hours, as people tell them.
func stateAt(sys *model.System, rec *history.Record, at float64) array.State {
	nan := math.NaN()
	s := array.State{HourOfWeek: math.Mod(rec.Phase+at, 7*24), Spares: sys.Spares, SpareIn: nan, TechnicianIn: nan, Scrubbed: nan}
	installed := make([]float64, sys.Groups()*sys.Drives)
	for range installed {
		s.Drives = append(s.Drives, array.DriveState{DownFor: nan, RebuiltFor: nan})
	}
	for _, e := range rec.Events {
		if e.At > at {
			if e.Kind == history.Arrives && s.Drives[e.Bay].Down && !s.Drives[e.Bay].Rebuilding && math.IsNaN(s.TechnicianIn) {
				s.TechnicianIn = math.Ceil(e.At - at)
			}
			continue
		}
		d := &s.Drives[min(e.Bay, len(installed)-1)]
		switch e.Kind {
		case history.Fails:
			d.Down = true
			d.DownFor = math.Round(10*(at-e.At)) / 10
		case history.TakesSpare:
			if e.Until > at {
				s.Spares--
				s.SpareIn = math.Ceil(e.Until - at)
			}
		case history.Rebuilds:
			d.Rebuilding = true
			d.Rebuilt = math.Floor(100*(at-e.At)/(e.Until-e.At)) / 100
			d.RebuiltFor = math.Floor(10*(at-e.At)) / 10
		case history.Restored:
			installed[e.Bay] = e.At
			*d = array.DriveState{DownFor: nan, RebuiltFor: nan}
		}
	}
	for i := range s.Drives {
		d := &s.Drives[i]
		d.Age = math.Max(math.Round(at-installed[i]), 0)
		if d.Down {
			d.Age = math.Max(d.Age, math.Ceil(d.DownFor))
			d.DownFor = math.Max(d.DownFor, math.Max(0, orZero(d.RebuiltFor)))
		}
	}
	s.HourOfWeek = math.Floor(s.HourOfWeek)
	return s
}

func orZero(x float64) float64 {
	if math.IsNaN(x) {
		return 0
	}
	return x
}
