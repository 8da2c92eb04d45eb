package sweep

import (
	"context"
	"math"
	"reflect"
	"sync"

	"arrayodds/sim/engine"
	"arrayodds/sim/model"
)

// bundles is the most sums that are kept of a point: one for each trial of a block.
const bundles = engine.TrialsPerBlock

// curve is the points of one choice, which run the same number of trials.
type curve struct {
	label   string
	members []*member
	goal    int // blocks that each should have; 0 where none has to go on
}

// member is a system of a series with its sums so far.
type member struct {
	curve  *curve
	sys    *model.System
	sums   model.Sums // without curve and histograms
	bundle []model.Sample
	blocks int
	enough int  // blocks at which it was accurate enough; 0 while it is not
	spent  bool // its work is used up
	err    error

	// plain reports whether the plain simulation serves it.
	plain func() bool
}

// fingerprint is a key to find a system that was added before. Two systems that
// differ hardly ever have the same one.
type fingerprint struct{ horizon, life, worn, rebuild, restore, wait, latent, read, due float64 }

// fingerprintOf returns the key of a system.
func fingerprintOf(sys *model.System) fingerprint {
	r := &sys.Repair
	t := fingerprint{
		horizon: sys.Horizon, life: sys.Life.Mean(), worn: sys.Life.Cumulative(sys.Horizon), rebuild: r.Rebuild,
		wait: r.Notice.Mean() + r.Response.Mean(), latent: sys.LatentRate, read: sys.ReadErrors, due: sys.Footage.Due,
	}
	if r.Restore != nil {
		t.restore = r.Restore.Mean()
	}
	return t
}

// addSystem adds a point that is this system.
func (s *Series) addSystem(label string, sys *model.System) {
	key := fingerprintOf(sys)
	for _, m := range s.byFingerprint[key] {
		if reflect.DeepEqual(m.sys, sys) {
			s.members = append(s.members, m)
			return
		}
	}
	m := &member{curve: s.curveOf(label), sys: sys, bundle: make([]model.Sample, s.lives)}
	m.plain = sync.OnceValue(func() bool {
		plain, err := engine.PlainServes(context.Background(), sys, s.opt)
		return plain && err == nil
	})
	m.curve.members = append(m.curve.members, m)
	s.members = append(s.members, m)
	s.unique = append(s.unique, m)
	s.byFingerprint[key] = append(s.byFingerprint[key], m)
}

// curveOf returns the curve of that label.
func (s *Series) curveOf(label string) *curve {
	for i := len(s.curves) - 1; i >= 0; i-- { // mostly the last one
		if s.curves[i].label == label {
			return s.curves[i]
		}
	}
	s.curves = append(s.curves, &curve{label: label})
	return s.curves[len(s.curves)-1]
}

// halfWidth returns the relative half-width of the loss chance so far, +Inf before
// the first block.
func (m *member) halfWidth() float64 {
	if m.blocks == 0 {
		return math.Inf(1)
	}
	return engine.RelativeHalfWidth(&m.sums)
}

// converged reports whether the loss chance is as accurate as asked for and can be
// trusted.
func (m *member) converged(accuracy float64) bool {
	return m.err == nil && m.halfWidth() <= accuracy && len(engine.Warnings(&m.sums)) == 0
}

// perBlock returns the work of a block, 1 at the least.
func (m *member) perBlock() int64 { return m.sums.Work/int64(max(1, m.blocks)) + 1 }

// add adds the outcome of a piece.
func (m *member) add(p piece, o *outcome) {
	m.sums.AddFigures(&o.sums)
	m.sums.Plain = m.plain()
	m.blocks += o.blocks
	for i := range o.bundle {
		m.bundle[i].Add(&o.bundle[i])
	}
	if o.blocks < p.to-p.from {
		m.spent = true
	}
	if m.err == nil {
		m.err = o.err
	}
}
