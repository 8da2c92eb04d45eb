package sim

import (
	"fmt"
	"math"

	"arrayodds/sim/model"

	"gonum.org/v1/gonum/stat/distuv"
)

// z95 is how many standard errors a 95 % interval reaches to each side.
const z95 = 1.959963984540054

// closed is a figure that chance has no part in.
func closed(x float64) Estimate { return Estimate{Value: x, Low: x, High: x} }

// scaled is the estimate times a number that is not negative.
func (e Estimate) scaled(by float64) Estimate {
	e.Value *= by
	e.Low *= by
	e.High *= by
	return e
}

// plus is the estimate plus a number without chance.
func (e Estimate) plus(x float64) Estimate {
	sum := Estimate{Value: e.Value + x, Low: e.Low + x, High: e.High + x}
	if sum.Value > 0 {
		sum.RelativeError = e.RelativeError * e.Value / sum.Value
	}
	return sum
}

// chance keeps an estimate of a chance within 0 and 1.
func (e Estimate) chance() Estimate {
	e.Value, e.Low, e.High = math.Min(1, e.Value), math.Min(1, e.Low), math.Min(1, e.High)
	return e
}

// mean estimates the mean of trials that add up to sum, their squares to
// squares.
func mean(n, sum, squares float64) Estimate {
	m := sum / n
	if sum == 0 {
		return closed(0)
	}
	spread := math.Max(0, squares/n-m*m)
	if spread < 1e-12*m*m { // what rounding leaves of a sum of equal terms
		return closed(m)
	}
	se := math.Sqrt(spread / (n - 1))
	return Estimate{Value: m, Low: math.Max(0, m-z95*se), High: m + z95*se, RelativeError: se / m}
}

// share estimates a chance from k cases in n, by the exact interval of Clopper
// and Pearson (Biometrika 26, 1934).
func share(k, n float64) Estimate {
	e := Estimate{Value: k / n, Low: 0, High: 1, RelativeError: 1}
	if k > 0 {
		e.Low = distuv.Beta{Alpha: k, Beta: n - k + 1}.Quantile(0.025)
		e.RelativeError = math.Sqrt((1 - k/n) / k)
	}
	if k < n {
		e.High = distuv.Beta{Alpha: k + 1, Beta: n - k}.Quantile(0.975)
	}
	return e
}

// relativeReach is the 95 % half-width of the loss chance ÷ the loss chance.
func relativeReach(s *model.Sums) float64 {
	if s.Sum[model.Loss] == 0 {
		if s.Sum[model.Any] == 0 && s.Squares[model.Failures] == 0 {
			return 0 // nothing can fail at all
		}
		return math.Inf(1)
	}
	return z95 * mean(s.N, s.Sum[model.Loss], s.Squares[model.Loss]).RelativeError
}

// A sample whose sum rests on few trials tells neither its value nor its
// error.
const (
	leastEffective = 50
	mostOfOne      = 0.1
)

// effective is Kish's effective number of samples of the loss chance.
func effective(s *model.Sums) float64 {
	if s.Squares[model.Loss] == 0 {
		return 0
	}
	return s.Sum[model.Loss] * s.Sum[model.Loss] / s.Squares[model.Loss]
}

func largestShare(s *model.Sums) float64 {
	if s.Sum[model.Loss] == 0 {
		return 0
	}
	return s.Largest / s.Sum[model.Loss]
}

// distrust lists why the interval of the loss chance cannot be trusted.
func distrust(s *model.Sums) (why []string) {
	if s.Sum[model.Loss] == 0 {
		return nil
	}
	if e := effective(s); e < leastEffective {
		why = append(why, fmt.Sprintf("the loss chance rests on about %.0f independent samples, and its interval needs at least %d: do not trust either", e, leastEffective))
	}
	if l := largestShare(s); l > mostOfOne {
		why = append(why, fmt.Sprintf("one simulated life makes %.0f %% of the loss chance (%.0f %% would do): a rarer one may be missing, do not trust the interval", 100*l, 100*mostOfOne))
	}
	return why
}
