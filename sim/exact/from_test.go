package exact

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// From every state, against gonum v0.17.0's matrix exponential.
func TestLossFromAgainstGonum(t *testing.T) {
	compared := 0
	for _, c := range chains {
		if c.chain.RestorePerHour*c.hours > 1e6 {
			continue
		}
		q := generator(c.chain)
		m := mat.NewDense(len(q), len(q), nil)
		for i := range q {
			sum := 0.0
			for j, r := range q[i] {
				sum += r
				m.Set(i, j, r*c.hours)
			}
			m.Set(i, i, -sum*c.hours)
		}
		var e mat.Dense
		e.Exp(m)
		for down := range c.chain.Tolerance + 1 {
			got := c.chain.LossFrom(down, c.hours)
			if got < 1e-6 {
				continue
			}
			compared++
			near(t, fmt.Sprintf("%s, %d down", c.name, down), got, e.At(down, len(q)-1), 1e-8)
		}
	}
	if compared < 15 {
		t.Errorf("only %d states have a loss chance that gonum can tell", compared)
	}
}

// With one drive down of a group that tolerates one, what comes first is the loss or the
// restore, each at its rate.
func TestLossBeforeWholeIsARace(t *testing.T) {
	for _, hours := range []float64{1, 48, 720, 43800} {
		c := usual(8, 1)
		lost, all := 7*c.FailurePerHour, 7*c.FailurePerHour+c.RestorePerHour
		near(t, fmt.Sprintf("%g h", hours), c.LossBeforeWhole(1, hours), -lost/all*math.Expm1(-all*hours), 1e-12)
	}
}
