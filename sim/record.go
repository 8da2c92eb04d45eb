package sim

import (
	"cmp"
	"context"
	"math"

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
// rate: so its 95 % interval is the loss chance at the ends of the rate's. A
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
		unit, ok := sys.Life.(law.Constant)
		if !ok {
			return nil, nil
		}
		rate := distuv.Gamma{Alpha: sys.Uncertain, Beta: 1}
		low, err := at(law.Constant{PerHour: unit.PerHour * rate.Quantile(0.025)})
		if err != nil {
			return nil, err
		}
		high, err := at(law.Constant{PerHour: unit.PerHour * rate.Quantile(0.975)})
		if err != nil {
			return nil, err
		}
		return &Span{low, high}, nil
	case sys.Fitted != nil:
		var p [5]float64
		for i, d := range [][2]float64{{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			var err error
			if p[i], err = at(sys.Fitted.At(d[0], d[1])); err != nil {
				return nil, err
			}
			if p[i] == 0 {
				return nil, nil // nothing fails within the life there
			}
		}
		u, v := math.Log(p[1]/p[2])/2, math.Log(p[3]/p[4])/2
		reach := estimate.Z95 * math.Hypot(u, v)
		return &Span{p[0] * elementary.Exp(-reach), math.Min(1, p[0]*elementary.Exp(reach))}, nil
	}
	return nil, nil
}
