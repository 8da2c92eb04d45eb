package trace

import (
	"math"
	"slices"

	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// A feature is one figure of a life with a loss. It is compared by the two-sample
// test of Kolmogorov and Smirnov, or, where it is a count, by chi-square.
type feature struct {
	name  string
	count bool
	of    func(*model.System, *history.Record, int) float64 // at event number i, the first loss; NaN where there is none
}

var features = []feature{
	{"hours to the first loss", false, func(_ *model.System, r *history.Record, i int) float64 { return r.Events[i].At }},
	{"hours that the fatal outage took", false, outageLength},
	{"hour of the week", false, func(_ *model.System, r *history.Record, i int) float64 {
		return math.Mod(r.Phase+r.Events[i].At, law.WeekHours)
	}},
	{"hour of the week of the last arrival before", false, func(_ *model.System, r *history.Record, i int) float64 {
		return lastArrival(r, r.Events[:i])
	}},
	{"hour of the week of the last arrival of all", false, func(_ *model.System, r *history.Record, i int) float64 {
		return lastArrival(r, r.Events[i:])
	}},
	{"hours that the last drive had run", false, lastDriveAge},
	{"hours until something comes of a drive of another set", false, untilElsewhere},
	{"hours until the next loss", false, func(_ *model.System, r *history.Record, i int) float64 {
		for _, e := range r.Events[i+1:] {
			if e.Kind == history.LosesSet {
				return e.At - r.Events[i].At
			}
		}
		return math.NaN()
	}},
	{"hours until the next failure", false, func(_ *model.System, r *history.Record, i int) float64 {
		for _, e := range r.Events[i+1:] {
			if e.Kind == history.Fails && e.At > r.Events[i].At {
				return e.At - r.Events[i].At
			}
		}
		return math.NaN()
	}},
	{"rate", false, func(s *model.System, r *history.Record, _ int) float64 { return onlyIf(s.Uncertain > 0, r.Rate) }},
	{"batch", false, func(s *model.System, r *history.Record, _ int) float64 { return onlyIf(s.Frailty > 0, r.Batch) }},
	{"fitted scale", false, func(s *model.System, r *history.Record, _ int) float64 {
		w, ok := r.Life.(law.Weibull)
		return onlyIf(s.Fitted != nil && ok, w.Scale)
	}},
	{"fitted shape", false, func(s *model.System, r *history.Record, _ int) float64 {
		w, ok := r.Life.(law.Weibull)
		return onlyIf(s.Fitted != nil && ok, w.Shape)
	}},
	{"failures before", true, func(_ *model.System, r *history.Record, i int) float64 {
		return counted(r.Events[:i], history.Fails, 0)
	}},
	{"spares taken in the 500 hours before", true, func(s *model.System, r *history.Record, i int) float64 {
		return onlyIf(s.Spares > 0, counted(r.Events[:i], history.TakesSpare, r.Events[i].At-500))
	}},
	{"common-cause events before", true, func(s *model.System, r *history.Record, i int) float64 {
		return onlyIf(s.ShockRate > 0, counted(r.Events[:i], history.CommonCause, 0))
	}},
	{"drives down elsewhere", true, downElsewhere},
	{"cause", true, func(_ *model.System, r *history.Record, i int) float64 { return causeOf(r, i) }},
	{"bay of the last failure", true, func(_ *model.System, r *history.Record, i int) float64 { return float64(lastFailure(r, i).Bay) }},
	{"sets lost at once", true, func(_ *model.System, r *history.Record, i int) float64 {
		n := 0.0
		for _, e := range r.Events[i:] {
			if e.Kind == history.LosesSet && e.At == r.Events[i].At {
				n++
			}
		}
		return n
	}},
	{"losses later", true, func(_ *model.System, r *history.Record, i int) float64 {
		return counted(r.Events[i+1:], history.LosesSet, 0)
	}},
	{"failures later", true, func(_ *model.System, r *history.Record, i int) float64 {
		return counted(r.Events[i+1:], history.Fails, 0)
	}},
	{"rebuilds later", true, func(_ *model.System, r *history.Record, i int) float64 {
		return counted(r.Events[i+1:], history.Restored, 0)
	}},
}

func onlyIf(ok bool, x float64) float64 {
	if !ok {
		return math.NaN()
	}
	return x
}

func counted(events []history.Event, kind history.Kind, since float64) (n float64) {
	for _, e := range events {
		if e.Kind == kind && e.At >= since {
			n++
		}
	}
	return n
}

func lastArrival(r *history.Record, events []history.Event) float64 {
	for _, e := range slices.Backward(events) {
		if e.Kind == history.Arrives {
			return math.Mod(r.Phase+e.At, law.WeekHours)
		}
	}
	return math.NaN()
}

func lastFailure(r *history.Record, i int) history.Event {
	for ; r.Events[i].Kind != history.Fails; i-- {
	}
	return r.Events[i]
}

// outageLength is the time since the lost group had all its drives.
func outageLength(s *model.System, r *history.Record, i int) float64 {
	down, since := 0, 0.0
	for _, e := range r.Events[:i] {
		if e.Group != r.Events[i].Group {
			continue
		}
		switch e.Kind {
		case history.Fails:
			if down++; down == 1 {
				since = e.At
			}
		case history.Restored:
			down--
		}
	}
	return onlyIf(s.Tolerance > 0, r.Events[i].At-since)
}

// lastDriveAge is the age of the drive that failed last.
func lastDriveAge(_ *model.System, r *history.Record, i int) float64 {
	last, from := lastFailure(r, i), 0.0
	for _, e := range r.Events[:i] {
		if e.Kind == history.Restored && e.Bay == last.Bay && e.At < last.At {
			from = e.At
		}
	}
	return last.At - from
}

// untilElsewhere is how long it takes until something comes of the drives that
// other sets have down; at most 10 000 hours.
func untilElsewhere(s *model.System, r *history.Record, i int) float64 {
	loss, down := r.Events[i], map[int]bool{}
	for _, e := range r.Events {
		switch {
		case e.At <= loss.At && e.Kind == history.Fails && e.Set != loss.Set:
			down[e.Bay] = true
		case e.At < loss.At && e.Kind == history.Restored:
			delete(down, e.Bay)
		case e.At == loss.At && e.Kind == history.LosesSet:
			for bay := range down {
				if bay/(s.Drives*s.GroupsPerSet) == e.Set {
					delete(down, bay)
				}
			}
		case e.At > loss.At && (e.Kind == history.Arrives || e.Kind == history.Restored) && down[e.Bay]:
			return min(1e4, e.At-loss.At)
		}
	}
	return onlyIf(len(down) > 0, 1e4)
}

// downElsewhere is the failed drives of other groups.
func downElsewhere(s *model.System, r *history.Record, i int) float64 {
	down := 0.0
	for _, e := range r.Events[:i] {
		if e.Group == r.Events[i].Group {
			continue
		}
		switch e.Kind {
		case history.Fails:
			down++
		case history.Restored:
			down--
		}
	}
	return onlyIf(s.Groups() > 1, down)
}

func causeOf(r *history.Record, i int) float64 {
	loss, before := r.Events[i], r.Events[i-1]
	common := 0.0
	for k := i - 1; k >= 0 && r.Events[k].At == loss.At; k-- {
		if r.Events[k].Kind == history.CommonCause {
			common = 10
		}
	}
	if loss.BySector {
		return common + float64(before.Kind)
	}
	return common
}
