package axis

import (
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// numberPlaces are the places of a tree at which the reader reads a number.
func numberPlaces(s *Source) (all []target) {
	var walk func(n *toml.Node, at []toml.Step)
	walk = func(n *toml.Node, at []toml.Step) {
		if len(at) > 0 && site.Descriptive(at[0].Key) {
			return
		}
		switch n.Kind {
		case toml.TableNode:
			for _, key := range n.Keys {
				walk(n.Under[key], further(at, toml.Step{Key: key}))
			}
		case toml.ListNode:
			for i, item := range n.Items {
				walk(item, further(at, toml.Step{Item: i}))
			}
		default:
			all = append(all, s.target(at))
		}
	}
	walk(s.doc.Root, nil)
	own := s.current(all)
	var numeric []target
	for i, t := range all {
		if own[i].Node != nil && own[i].Read.Numeric {
			numeric = append(numeric, t)
		}
	}
	return numeric
}

// TestEveryNumberVaries: each number of the file with every key can be set by its
// path: to what it is, which changes nothing, and to something else, which does.
func TestEveryNumberVaries(t *testing.T) {
	t.Parallel()
	keys := everyNumberVaries(t, openedFile(t, "../testdata/everything.toml"))
	for _, key := range strings.Fields(`service_life cameras.count cameras.bitrate cameras.hours_per_day cameras.activity cameras.retention
		cameras.frames_per_second drives.capacity drives.hazard_multiplier drives.batch_variance drives.read_error drives.latent_defects.mean
		drives.transfer drives.price drives.power drives.life.afr drives.life.mtbf drives.life.shape drives.life.scale drives.life.min
		drives.life.failures drives.life.drive_days choices.drives choices.groups choices.hot_spares
		care.rebuild_share care.rebuild_floor care.controller_limit care.notice care.scrub care.restore.exponential care.response.weibull.scale
		care.response.weibull.shape care.restock.within choices.response hazards.common_cause.per_year hazards.common_cause.each_drive
		hazards.degraded_multiplier recorder.price recorder.bays recorder.link recorder.idle_power recorder.power.failures_per_year
		recorder.power.restore recorder.system_disk.failures_per_year recorder.system_disk.restore recorder.mains.outages_per_year
		recorder.mains.mean recorder.mains.ups_bridges recorder.swap.powered_down choices.recorder.bays`) {
		if !keys[key] {
			t.Errorf("%s is not varied", key)
		}
	}
}

// unspaced takes the blanks out of the thousands, which plain numbers cannot have.
func unspaced(s string) string {
	for i := 1; i+1 < len(s); i++ {
		if s[i] == ' ' && s[i-1] >= '0' && s[i-1] <= '9' && s[i+1] >= '0' && s[i+1] <= '9' {
			s = s[:i] + s[i+1:]
		}
	}
	return s
}

// So it is with what a log updates: the shape of a law and the errors of a fit are still
// numbers of it.
func TestEveryNumberBesideALogVaries(t *testing.T) {
	t.Parallel()
	for life, want := range map[string]string{
		`{ shape = 1.3, scale = "400000 h", min = "500 h" }`:                                                  "shape min",
		`{ shape = { low = 1.1, likely = 1.3, high = 1.6 }, scale = "400000 h" }`:                             "shape",
		`{ shape = 1.3, scale = "400000 h", shape_error = "10 %", scale_error = "20 %", correlation = -0.4 }`: "shape shape_error scale_error correlation",
	} {
		s := opened(t, strings.ReplaceAll(logSite, "LIFE", life))
		keys := everyNumberVaries(t, s)
		for _, key := range strings.Fields(want) {
			if !keys["drives.life."+key] {
				t.Errorf("%s: %s is not varied", life, key)
			}
		}
		// What the log is set against is the law that was set, and not the file's.
		a, err := s.Axis("drives.a.life.shape=2", 2)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.With(a.Set(a.Values[0]))
		if err != nil {
			t.Fatal(err)
		}
		l, own := f.Site.Drives[0].Log, s.File().Site.Drives[0].Log
		if l == nil || l.Failures != own.Failures || l.Expected > own.Expected/2 {
			t.Errorf("%s: %+v", life, l)
		}
	}
}

// everyNumberVaries returns the keys of the numbers of a file, each of which it sets.
func everyNumberVaries(t *testing.T, s *Source) map[string]bool {
	t.Helper()
	keys := map[string]bool{}
	for _, p := range numberPlaces(s) {
		own := s.current([]target{p})[0]
		if own.updated { // what is set in its place is known, and the log does not update it
			continue
		}
		c, v := scaleOf(*own.Read), own.Read.Value
		other := v * 0.99
		switch {
		case c.whole && v < 10 || v == 0:
			other = v + 1
		case c.whole:
			other = v - 1
		}
		if c.unit == "%" && v == 0 {
			other = 0.01
		}
		for typed, changes := range map[string]bool{c.text(v, mostDigits): false, c.text(other, mostDigits): true} {
			a, err := s.Axis(p.path+"="+unspaced(typed), 2)
			if err != nil {
				t.Errorf("%s = %s: %v", p.path, typed, err)
				continue
			}
			f, err := s.With(a.Set(a.Values[0]))
			if err != nil {
				t.Error(err)
				continue
			}
			f.Unfit = nil // a drive more or less
			if same(f, s.File()) == changes {
				t.Errorf("%s = %s: changed is %v", p.path, typed, !changes)
			}
			if own := a.Own; !changes && own != a.Values[0].Shown {
				t.Errorf("%s has %v, its own is %v", p.path, a.Values[0].Shown, own)
			}
		}
		var key string
		for i, st := range p.steps {
			if st.Key != "" && !(i == 2 && st.Key == "care") {
				key = toml.Join(key, st.Key)
			}
		}
		keys[key] = true
	}
	return keys
}
