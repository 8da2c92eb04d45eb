package fit

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"arrayodds/array"
)

func says(r Result, what string) bool {
	return slices.ContainsFunc(r.Warnings, func(w string) bool { return strings.Contains(w, what) })
}

// sum is an array.Counted in short.
type sum struct{ DriveDays, Failures, From, To float64 }

func sums(rows []sum) []array.Counted {
	out := make([]array.Counted, len(rows))
	for i, r := range rows {
		out[i] = array.Counted(r)
	}
	return out
}

func TestDecides(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	ageing := Fleet(array.Fleet{Drives: simulated(r, 400, 2, 90000)})
	if w, ok := ageing.Life.(array.FittedWeibull); !ok || w.Shape != ageing.Weibull.Shape.Value || w.Scale != ageing.Weibull.Scale.Value {
		t.Errorf("an ageing fleet gives %+v", ageing.Life)
	}
	constant := Fleet(array.Fleet{Drives: simulated(r, 400, 1, 300000)})
	if f, ok := constant.Life.(array.FieldRecord); !ok || f.Failures != constant.Failures || f.DriveDays != constant.DriveDays {
		t.Errorf("a fleet without ageing gives %+v", constant.Life)
	}
	if !says(constant, "does not tell a Weibull law from a constant rate") {
		t.Errorf("warnings %q", constant.Warnings)
	}
}

func TestThinRecords(t *testing.T) {
	for _, c := range []struct {
		name   string
		fleet  array.Fleet
		says   string
		noLife bool
		noFit  bool
	}{
		{"no failure", array.Fleet{Drives: drives([]row{{0, 50000, false}})}, "No failure was seen", false, true},
		{"few failures", array.Fleet{Drives: drives([]row{{0, 50000, true}, {0, 90000, true}, {0, 1e6, false}})}, "Fewer than 10", false, false},
		{"all at one age", array.Fleet{Drives: drives([]row{{0, 50000, true}, {0, 50000, true}})}, "No Weibull law fits best", false, true},
		{"one year of age", array.Fleet{Drives: drives([]row{{9000, 10000, false}})}, "one year of age (year 2)", false, true},
		{"young", array.Fleet{Drives: drives([]row{{0, 20000, false}})}, "beyond an age of 2.3 years", false, true},
		{"few at risk", array.Fleet{Drives: drives([]row{{0, 50000, true}, {0, 60000, false}})}, "fewer than 5 drives watched, the first at 50000 h", false, false},
		{"fails too often", array.Fleet{Drives: handbook()}, "above 1000 % a year", true, false},
		{"wide bands", array.Fleet{Sums: sums([]sum{{1000, 3, 0, 2}})}, "wider than a year", false, true},
		{"the reader's notes", array.Fleet{Sums: sums([]sum{{1000, 3, 0, 0}}), Notes: []string{"so it was"}}, "so it was", false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Fleet(c.fleet)
			if !says(r, c.says) {
				t.Errorf("says %q, want %q", r.Warnings, c.says)
			}
			if (r.Life == nil) != c.noLife || (r.Weibull == nil) != c.noFit {
				t.Errorf("life %v, Weibull %v", r.Life, r.Weibull)
			}
		})
	}
}

func TestBandsOfOneYear(t *testing.T) {
	r := Fleet(array.Fleet{Sums: sums([]sum{{36500, 2, 0, 1}, {73000, 3, 1, 1.5}, {3650, 1, 1.5, 2}})})
	if len(r.ByYear) != 2 || r.ByYear[1].Year != 2 || r.ByYear[1].DriveDays != 76650 || r.ByYear[1].Failures != 4 {
		t.Errorf("%+v", r.ByYear)
	}
	near(t, "rate of year 1", r.ByYear[0].AFR.Value, 0.02, 1e-12)
	near(t, "rate", r.AFR.Value, 6/310., 1e-12)
}
