package law

import (
	"fmt"
	"math"
	"testing"
)

// Cumulative hazards, their differences over d and their rates, by Python
// 3.11.2's decimal with 80 digits: exp(β·ln((a − γ)/η)), β and the others being
// the binary numbers that stand here.
func TestWeibullHazards(t *testing.T) {
	for _, c := range []struct {
		w                      Weibull
		age, d                 float64
		cumulative, over, rate float64
	}{
		{Weibull{1.12, 461386, 0}, 43800, 1e-06, 7.15647011186912874e-02, 1.82996496011516079e-12, 1.82996496011265411e-06},
		{Weibull{1.12, 461386, 0}, 43800, 12, 7.15647011186912874e-02, 2.19599404717347617e-05, 1.82996496011265411e-06},
		{Weibull{1.12, 461386, 0}, 43800, 43799, 7.15647011186912874e-02, 8.39770214598303116e-02, 1.82996496011265411e-06},
		// On both sides of a thousandth of the age, where the series begins.
		{Weibull{0.7, 200000, 0}, 1000.5, 0.9, 2.45149475336530441e-02, 1.54346164955591432e-05, 1.71518873298921825e-05},
		{Weibull{0.7, 200000, 0}, 1000.5, 1.1, 2.45149475336530441e-02, 1.88639660325631970e-05, 1.71518873298921825e-05},
		{Weibull{0.2, 1e+06, 100}, 30000, 0.001, 4.95603354980536759e-01, 3.31507256421666695e-09, 3.31507260856546351e-06},
		{Weibull{3.3, 80000, 500}, 20000, 1e-09, 9.48237792647004668e-03, 1.60471011063348723e-15, 1.60471011063339250e-06},
		{Weibull{3.3, 80000, 500}, 20000, 20, 9.48237792647004668e-03, 3.21320737383186839e-05, 1.60471011063339250e-06},
		{Weibull{20, 60000, 0}, 50000, 49, 2.60840533045888258e-02, 5.16035262530158828e-04, 1.04336213218355303e-05},
		{Weibull{20, 60000, 0}, 50000, 51, 2.60840533045888258e-02, 5.37302571867960782e-04, 1.04336213218355303e-05},
		// A short window over the end of the minimum life.
		{Weibull{2, 100000, 1000}, 999.9999, 0.0002, 0, 1.00000000050204128e-18, 0},
		{Weibull{1.12, 461386, 0}, 0, 12, 0, 7.32707865506799883e-06, 0},
	} {
		// The series leaves out less than 1e-11 of the sum at the steepest
		// shape accepted, 20.
		tolerance := 1e-13
		if c.w.Shape == 20 {
			tolerance = 1e-11
		}
		what := fmt.Sprintf("%v at %g, %g", c.w, c.age, c.d)
		near(t, what+": Cumulative", c.w.Cumulative(c.age), c.cumulative, 1e-13)
		near(t, what+": Over", c.w.Over(c.age, c.d), c.over, tolerance)
		near(t, what+": Rate", c.w.Rate(c.age), c.rate, 1e-13)
	}
}

// At the end of the minimum life the hazard is what its shape makes of it.
func TestWeibullRateAtStart(t *testing.T) {
	for _, c := range []struct{ shape, want float64 }{{0.7, math.Inf(1)}, {1, 1.0 / 300}, {1.3, 0}} {
		w := Weibull{Shape: c.shape, Scale: 300, Min: 20}
		if r := w.Rate(20); r != c.want {
			t.Errorf("shape %g: Rate = %g, want %g", c.shape, r, c.want)
		}
		if r := w.Rate(19); r != 0 {
			t.Errorf("shape %g: Rate before the minimum = %g, want 0", c.shape, r)
		}
	}
}

// By scipy 1.10.1: stats.weibull_min(β, loc=γ, scale=η).cdf and .mean, and
// integrate.quad of its .sf.
func TestWeibullAgainstScipy(t *testing.T) {
	for _, c := range []struct {
		w                    Weibull
		x, cdf, mean, within float64
	}{
		{Weibull{1.12, 461386, 0}, 138415.8, 0.228672724650686, 442625.54094024, 122815.587474},
		{Weibull{1.12, 461386, 0}, 461386, 0.632120558828558, 442625.54094024, 300314.800188},
		{Weibull{1.12, 461386, 0}, 1384158, 0.967377561663526, 442625.54094024, 431137.04538},
		{Weibull{0.7, 200000, 0}, 60000.0, 0.349823633779733, 253164.701211457, 46885.8875976},
		{Weibull{0.7, 200000, 0}, 600000.0, 0.884405774911622, 253164.701211457, 199652.066667},
		{Weibull{3.3, 80000, 500}, 24500.0, 0.0186389292322501, 72261.2278225029, 24395.5435417},
		{Weibull{3.3, 80000, 500}, 80500, 0.632120558828558, 72261.2278225029, 66136.6607675},
		{Weibull{2, 12, 6}, 9.6, 0.0860688147287718, 16.6347231054331, 9.49485459188},
		{Weibull{2, 12, 6}, 18, 0.632120558828558, 16.6347231054331, 14.9618895937},
		{Weibull{2, 12, 6}, 42, 0.999876590195913, 16.6347231054331, 16.6344881791},
		{Weibull{0.5, 10, 0}, 3.0, 0.421734722221873, 20, 2.10011570722},
		{Weibull{0.5, 10, 0}, 30, 0.823078793682236, 20, 10.3328455081},
		{Weibull{20, 100, 0}, 30.0, 3.48678440093921e-11, 97.3504265562776, 30},
		{Weibull{20, 100, 0}, 100, 0.632120558828558, 97.3504265562776, 96.2285940263},
		{Weibull{20, 100, 0}, 300, 1, 97.3504265562776, 97.3504265563},
	} {
		what := fmt.Sprintf("%v at %g", c.w, c.x)
		near(t, what+": failed by then", -math.Expm1(-c.w.Cumulative(c.x)), c.cdf, 1e-13)
		near(t, what+": Mean", c.w.Mean(), c.mean, 1e-13)
		near(t, what+": MeanWithin", c.w.MeanWithin(c.x), c.within, 1e-11)
	}
}
