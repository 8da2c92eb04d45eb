package branch

import (
	"math"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// What the tests beside this file share: a system, a simulator that is ready to
// follow lines of it.

// systemOf is sets of a group of drives with that tolerance and life, restored by a
// law.
func systemOf(sets, drives, tolerance int, life law.Life, restore law.Time) *model.System {
	sys := &model.System{
		Horizon: 43800, Sets: sets, GroupsPerSet: 1, Drives: drives, Tolerance: tolerance,
		Life: life, Repair: model.Repair{Restore: restore},
	}
	for range tolerance + 1 {
		sys.Degraded = append(sys.Degraded, 1)
	}
	return sys
}

// following returns a simulator of a system as it is within a life, and the sums
// that its trial belongs to.
func following(sys *model.System, seed uint64) (*Simulator, *model.Sums) {
	b, sums := New(sys), model.NewSums(sys)
	b.rnd, b.tr = stream.New(seed, 1), sums.Begin()
	b.rate, b.batch = 1, 1
	b.steer()
	return b, sums
}

// lineAt returns a line with weight 1 at a time, all of its drives running.
func lineAt(b *Simulator, now float64) *line {
	l := b.newLine()
	l.begin(b.sys)
	l.now, l.w, l.decay, l.failures = now, 1, 1, 1
	return l
}

// fail makes an original drive of a group of a line fail, restored at a time.
func fail(b *Simulator, l *line, g int, until float64) {
	l.removeDrive(b, g, none)
	l.raise(g)
	l.down = append(l.down, downDrive{group: g, state: rebuilding, begun: l.now, length: until - l.now, at: until})
}

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s: %.12g, should be %.12g", what, got, want)
	}
}
