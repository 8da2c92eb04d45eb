package axis

import (
	"strings"
	"testing"
)

// Around a value: by hand a quarter to four times it, with it among them, within the
// key's bounds and what the file allows.
func TestAround(t *testing.T) {
	t.Parallel()
	demo := openedFile(t, demo)
	plain := opened(t, small)
	for _, c := range []struct {
		s            *Source
		path         string
		points       int
		named        string
		values       string
		log, numeric bool
	}{
		{demo, "care.notice", 5, "care.notice", "0.5 h|1 h|2 h|4 h|8 h", true, true},
		{plain, "care.notice", 3, "care.notice", "0.25 h|1 h|4 h", true, true},
		{plain, "drives.0.life.afr", 3, "drives.12 TB.life.afr", "0.375 %|1.5 %|6 %", true, true},
		{plain, "drives.12 TB.life.afr", 3, "drives.12 TB.life.afr", "0.375 %|1.5 %|6 %", true, true},
		{demo, "care.rebuild_share", 5, "care.rebuild_share", "0.1|0.2|0.4|0.6325|1", true, true},
		{demo, "cameras.0.count", 3, "cameras.Ramps and quay.count", "6|24|96", true, true},
		{demo, "choices.*.care.response", 3, "choices.*.care.response", "×0.25|×1|×4", true, true},
		{demo, "care.response", 3, "care.response", "×0.25|×1|×4", true, true},
		{demo, "drives.0.life", 3, "drives.8 TB.life", "×0.25|×1|×4", true, true},
	} {
		a, err := c.s.Around(c.path, c.points)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		var texts []string
		own := false
		for _, v := range a.Values {
			texts = append(texts, v.Text)
			own = own || v.Shown == a.Own
		}
		if got := strings.Join(texts, "|"); got != c.values || a.Path != c.named || a.Log != c.log || a.Numeric != c.numeric || !own {
			t.Errorf("%s: %s of %s, its own %g; want %s", c.path, got, a.Path, a.Own, c.values)
		}
		for _, v := range a.Values {
			if _, err := c.s.With(a.Set(v)); err != nil {
				t.Errorf("%s: %v", c.path, err)
			}
		}
	}
	spares, err := demo.Around("choices.0.hot_spares", 9)
	if err != nil || spares.Values[0].Text != "0" || len(spares.Values) < 4 {
		t.Errorf("%+v, %v", spares, err)
	}
}

func TestAroundWhatIsNone(t *testing.T) {
	t.Parallel()
	s := opened(t, small)
	for path, found := range map[string]string{
		"":                        "no path",
		"drives.7.life.afr":       "a label that none of the drives has",
		"drives.0":                "a label that none",
		"drives.0.label":          "a label that none",
		"run.seed":                "what says nothing of the site itself",
		"choices.0.layout":        "multiples of",
		"hazards.batch_variance":  "",
		"drives.0.life.afr.x.y.z": "",
		"growth":                  "0, which has no multiples",
	} {
		if a, err := s.Around(path, 5); err == nil || !strings.Contains(err.Error(), found) {
			t.Errorf("%s: %+v, %v", path, a, err)
		}
	}
}
