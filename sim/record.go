package sim

import (
	"cmp"
	"context"
	"math"
	"slices"

	"arrayodds/array/elementary"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/law"
	"arrayodds/sim/model"

	"gonum.org/v1/gonum/stat/distuv"
)

// Span is a 95 % interval that is not the simulation's.
type Span struct{ Low, High float64 }

// recordSpan returns how far the loss chance could be off because the record behind
// the life law is as short as it is; nil where the law is certain. It is a
// matter apart from the simulation's interval, which more trials make narrower;
// this one only a longer record can.
//
// The rate behind a field record has a law, and the loss chance grows with the
// rate: so its 95 % interval is the loss chance at the ends of the rate's. So it is with
// what multiplies a law that a site's own log updated. A
// fitted Weibull has two uncertain parameters, jointly normal in their
// logarithms: there the logarithm of the loss chance is taken as linear in them
// over one standard error to each side (the delta method).
func recordSpan(ctx context.Context, sys *model.System, opt engine.Options) (*Span, error) {
	// The span is wide, and what is simulated here need not be narrow. The same
	// streams make the differences narrower than the figures.
	opt.Accuracy = math.Max(opt.Accuracy, 0.1)
	opt.Plain, opt.LossOnly, opt.Progress = false, true, nil
	opt.MaxWork = max(1, cmp.Or(opt.MaxWork, engine.MaxRunWork)/8)
	at := func(life law.Life) (float64, error) {
		known := *sys
		known.Life, known.Fitted, known.Uncertain = life, nil, 0
		s, _, err := engine.Simulate(ctx, &known, opt)
		if err != nil {
			return 0, err
		}
		return math.Min(1, s.Sum[model.Loss]/s.N), nil
	}
	switch {
	case sys.Uncertain > 0:
		return multiplierSpan(sys, at)
	case sys.Fitted != nil:
		middle, reach, err := fitReach(*sys.Fitted, at)
		if middle == 0 || err != nil {
			return nil, err
		}
		return &Span{middle * elementary.Exp(-reach), math.Min(1, middle*elementary.Exp(reach))}, nil
	}
	return nil, nil
}

// multiplierSpan returns the loss chance at the ends of the 95 % interval of what
// multiplies the life law; nil where the law cannot be multiplied.
func multiplierSpan(sys *model.System, at func(law.Life) (float64, error)) (*Span, error) {
	by := distuv.Gamma{Alpha: sys.Uncertain, Beta: 1}
	var ends [2]float64
	for i, quantile := range []float64{0.025, 0.975} {
		life, ok := law.Times(sys.Life, by.Quantile(quantile))
		if !ok {
			return nil, nil
		}
		var err error
		if ends[i], err = at(life); err != nil {
			return nil, err
		}
	}
	return &Span{ends[0], ends[1]}, nil
}

// fitReach returns the loss chance at the estimates of a fit, and how far its logarithm
// reaches to either side; 0 where nothing fails within the life.
func fitReach(fit law.Fitted, at func(law.Life) (float64, error)) (middle, reach float64, err error) {
	var p [5]float64
	for i, d := range [][2]float64{{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		if p[i], err = at(fit.At(d[0], d[1])); err != nil {
			return 0, 0, err
		}
	}
	if slices.Contains(p[:], 0) { // looked at last: a part of a run may find 0 where the whole does not
		return 0, 0, nil
	}
	u, v := math.Log(p[1]/p[2])/2, math.Log(p[3]/p[4])/2
	return p[0], estimate.Z95 * math.Hypot(u, v), nil
}
