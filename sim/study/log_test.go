package study

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/sim"
	"arrayodds/sim/engine"
)

// What a log leaves of a rate is drawn in every life as entered, and at the settings of the
// doubt once each: two ways to one mean. Without redundancy nothing else is in doubt, and
// the mean has a closed form: with H failures expected of all drives at a multiplier of 1
// and the multiplier Gamma(a, b) the chance is 1 − (1 + H/b)^−a.
func TestTheDoubtOfALog(t *testing.T) {
	t.Parallel()
	for _, life := range []string{
		`{ afr = "0.2 %" }`, `{ mtbf = "1000000 h" }`, `{ afr_by_year = ["0.3 %", "0.1 %"] }`,
		`{ shape = 1.4, scale = { low = "500000 h", likely = "900000 h", high = "1200000 h" } }`,
	} {
		source, err := axis.Open(strings.NewReader(`
service_life = "5 y"
[[drives]]
label = "a"
capacity = "12 TB"
life = `+life+`
transfer = "200 MB/s"
[[log]]
drive = "a"
failures = 2
drives = 60
since = 2022-01-01
until = 2025-12-31
[[choices]]
label = "c"
drive = "a"
layout = "JBOD"
drives = 4
`), "site.toml")
		if err != nil {
			t.Fatal(err)
		}
		c, err := Compare(t.Context(), Request{Source: source, Choices: []int{0}, Options: engine.Options{Seed: 3, Accuracy: 0.02, MaxTrials: 1e5}}, sim.Run)
		if err != nil {
			t.Fatal(err)
		}
		d := source.File().Site.Drives[0]
		h := 4 * d.Log.Stated.Expected(0, 5*8760)
		want := -math.Expm1(-d.Log.After.Shape * math.Log1p(h/d.Log.After.Rate))
		o := c.Outcomes[0]
		if got := o.Result.LossChance; math.Abs(got.Value-want) > 4*got.Value*got.RelativeError+1e-3*want {
			t.Errorf("%s: as entered %+v, want %v", life, got, want)
		}
		if got := o.Doubt.LossInAll; math.Abs(got.Value-want) > 4*got.Value*got.RelativeError+0.02*want {
			t.Errorf("%s: in all %+v, want %v", life, got, want)
		}
		// The response bears on what fails later, and hardly.
		if o.Doubt.High < 1.1*o.Doubt.Low || len(c.Doubt.Inputs) != 2 || !strings.Contains(c.Doubt.Inputs[0].Range, "log") {
			t.Errorf("%s: %+v, inputs %+v", life, o.Doubt, c.Doubt.Inputs)
		}
	}
}
