package site

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

const maxBays = 10_000

var (
	failuresAYear = toml.Limits{Low: 0, High: 1000}
	interruptions = toml.Between{Low: "0 h", High: "1 y"}
)

// freshRecorder is a recorder of which nothing is known.
func freshRecorder() array.Recorder {
	return array.Recorder{Price: math.NaN(), IdlePower: math.NaN()}
}

// readRecorder reads the machine around the drives. A choice's own table keeps what
// the site's says wherever it is silent.
func readRecorder(t *toml.Table, r *array.Recorder) {
	t.Number("price", toml.Absent("not given: not in the costs"), prices, &r.Price)
	t.Count("bays", toml.Absent("not given: not checked"), toml.Limits{Low: 1, High: maxBays}, &r.Bays)
	t.Quantity("link", toml.BitRate, toml.Absent("not given: not judged"), toml.Between{Low: "1 Mbit/s", High: "1000 Gbit/s"}, &r.Link)
	t.Quantity("idle_power", toml.Power, toml.Absent("not given"), toml.Between{Low: "0 W", High: "100 kW"}, &r.IdlePower)
	readPart(t, "power", "redundant", &r.Supply)
	readPart(t, "system_disk", "mirrored", &r.SystemDisk)
	readMains(t, &r.Mains)
	readSwap(t, &r.SwapDown)
	t.Done()
}

// noteAbsentPart notes a part that the recorder's table leaves out.
func noteAbsentPart(t *toml.Table, key string) {
	if !t.Keep && !t.Given(key) {
		t.Note(t.LastOwn(), toml.Join(t.Path, key), "not given: no gaps from it", true)
	}
}

// readPart reads what stops the recorder while it is broken. doubled is the key
// that says whether there are two of it.
func readPart(t *toml.Table, key, doubled string, dst **array.Unit) {
	p := t.Child(key)
	if p == nil {
		noteAbsentPart(t, key)
		return
	}
	var u array.Unit
	p.Number("failures_per_year", toml.Required, failuresAYear, &u.PerYear)
	p.Quantity("restore", toml.Time, toml.Required, interruptions, &u.Restore)
	p.Bool(doubled, toml.Default(false), &u.Redundant)
	p.Done()
	if down := u.PerYear * u.Restore; down > array.HoursPerYear {
		p.Wrong("failures_per_year", fmt.Sprintf("%s failures of %s, which is %s h a year", p.Written("failures_per_year", ""), p.Written("restore", ""), unit.Digits(down, 4)), "at most the 8 760 h of a year", "")
	}
	*dst = &u
}

func readMains(t *toml.Table, dst **array.Mains) {
	m := t.Child("mains")
	if m == nil {
		noteAbsentPart(t, "mains")
		return
	}
	var a array.Mains
	m.Number("outages_per_year", toml.Required, toml.Limits{Low: 0, High: 10_000}, &a.PerYear)
	m.Quantity("mean", toml.Time, toml.Required, toml.Between{Low: "1 s", High: "1 y"}, &a.Mean)
	m.Quantity("ups_bridges", toml.Time, toml.Default("0 h"), interruptions, &a.UPSBridges)
	m.Done()
	if down := a.PerYear * a.Mean; down > array.HoursPerYear {
		m.Wrong("outages_per_year", fmt.Sprintf("%s outages of %s, which is %s h a year", m.Written("outages_per_year", ""), m.Written("mean", ""), unit.Digits(down, 4)), "at most the 8 760 h of a year", "")
	}
	*dst = &a
}

func readSwap(t *toml.Table, dst *float64) {
	const key, right = "swap", `"hot", or { powered_down = "30 min" }`
	n := t.Ask(key, toml.Default("hot"), right)
	switch {
	case n == nil:
	case n.Kind == toml.TableNode:
		in := t.Inner(key, n)
		in.Quiet = true
		if in.Quantity("powered_down", toml.Time, toml.Required, toml.Between{Low: "0 h", High: "30 d"}, dst) {
			t.NoteValue(key, "powered down for "+in.Written("powered_down", ""))
		}
		in.Done()
	case n.Kind == toml.StringNode && strings.EqualFold(strings.TrimSpace(n.Text), "hot"):
		*dst = 0
		t.NoteValue(key, "hot")
	default:
		t.WrongAt(n, key, n.Shown(), right, "")
	}
}
