package splitting

import (
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// The values of the rare sites come out again, from other seeds and fewer lives: of all
// of them with -calibrate, of a fifth with make thorough, of one without.
func TestRareSites(t *testing.T) {
	t.Parallel()
	least, most := 1.0, 0.0
	runs := 3
	if *thorough.Calibrate {
		runs = 9 // where waits are heavy-tailed three leave an error of a fifth
	}
	for i, r := range simtest.RareSites {
		least, most = math.Min(least, r.Value), math.Max(most, r.Value)
		if !*thorough.Calibrate && (i%5 != 2 || !thorough.Part(i/5, 6)) {
			continue
		}
		site, choice := r.Site()
		sys, err := model.New(site, choice)
		if err != nil {
			t.Fatal(err)
		}
		got := Loss(sys, Options{Seed: uint64(100 + i), Runs: runs, Lives: 3000, PilotLives: 4000})
		z := (got.Value - r.Value) / math.Hypot(got.Value*got.RelativeError, r.StandardError)
		t.Logf("%s: %.4g ± %.1f %%, in the table %.4g: %.1f standard errors", r.Name, got.Value, 100*got.RelativeError, r.Value, z)
		if !(math.Abs(z) < 4) || got.RelativeError > 0.12 || r.StandardError > 0.015*r.Value {
			t.Errorf("%s: %.4g ± %.1f %%, in the table %.4g ± %.2g: %.1f standard errors", r.Name, got.Value, 100*got.RelativeError, r.Value, r.StandardError, z)
		}
	}
	if least > 1e-12 || most < 1e-6 {
		t.Errorf("chances from %g to %g are in the table", least, most)
	}
}
