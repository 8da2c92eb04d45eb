package site

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/array/unit"
)

const maxBays = 10_000

var (
	failuresAYear = limits{0, 1000}
	interruptions = between{"0 h", "1 y"}
)

// freshRecorder is a recorder of which nothing is known.
func freshRecorder() array.Recorder {
	return array.Recorder{Price: math.NaN(), IdlePower: math.NaN()}
}

// recorder reads the machine around the drives. A choice's own table keeps what
// the site's says wherever it is silent.
func (t *table) recorder(r *array.Recorder) {
	t.number("price", absent("not given: not in the costs"), prices, &r.Price)
	t.count("bays", absent("not given: not checked"), limits{1, maxBays}, &r.Bays)
	t.quantity("link", aBitRate, absent("not given: not judged"), between{"1 Mbit/s", "1000 Gbit/s"}, &r.Link)
	t.quantity("idle_power", aPower, absent("not given"), between{"0 W", "100 kW"}, &r.IdlePower)
	t.part("power", "redundant", &r.Supply)
	t.part("system_disk", "mirrored", &r.SystemDisk)
	t.mains(&r.Mains)
	t.swap(&r.SwapDown)
	t.done()
}

// silent lists a part that the recorder's table leaves out.
func (t *table) silent(key string) {
	if !t.keeps && !t.given(key) {
		t.note(t.lastOwn(), path(t.path, key), "not given: no gaps from it", true)
	}
}

// part reads what stops the recorder while it is broken. doubled is the key
// that says whether there are two of it.
func (t *table) part(key, doubled string, dst **array.Unit) {
	p := t.child(key)
	if p == nil {
		t.silent(key)
		return
	}
	var u array.Unit
	p.number("failures_per_year", required, failuresAYear, &u.PerYear)
	p.quantity("restore", aTime, required, interruptions, &u.Restore)
	p.yes(doubled, standard(false), &u.Redundant)
	p.done()
	if down := u.PerYear * u.Restore; down > array.HoursPerYear {
		p.wrong("failures_per_year", fmt.Sprintf("%s failures of %s, which is %s h a year", p.written("failures_per_year"), p.written("restore"), unit.Digits(down, 4)), "at most the 8 760 h of a year", "")
	}
	*dst = &u
}

func (t *table) mains(dst **array.Mains) {
	m := t.child("mains")
	if m == nil {
		t.silent("mains")
		return
	}
	var a array.Mains
	m.number("outages_per_year", required, limits{0, 10_000}, &a.PerYear)
	m.quantity("mean", aTime, required, between{"1 s", "1 y"}, &a.Mean)
	m.quantity("ups_bridges", aTime, standard("0 h"), interruptions, &a.UPSBridges)
	m.done()
	if down := a.PerYear * a.Mean; down > array.HoursPerYear {
		m.wrong("outages_per_year", fmt.Sprintf("%s outages of %s, which is %s h a year", m.written("outages_per_year"), m.written("mean"), unit.Digits(down, 4)), "at most the 8 760 h of a year", "")
	}
	*dst = &a
}

func (t *table) swap(dst *float64) {
	const key, right = "swap", `"hot", or { powered_down = "30 min" }`
	n := t.ask(key, standard("hot"), right)
	switch {
	case n == nil:
	case n.kind == tables:
		in := t.in(n, path(t.path, key), path(t.kind, key))
		in.quiet = true
		if in.quantity("powered_down", aTime, required, between{"0 h", "30 d"}, dst) {
			t.tell(key, "powered down for "+in.written("powered_down"))
		}
		in.done()
	case n.kind == text && strings.EqualFold(strings.TrimSpace(n.text), "hot"):
		*dst = 0
		t.tell(key, "hot")
	default:
		t.wrongAt(n, key, n.shown(), right, "")
	}
}
