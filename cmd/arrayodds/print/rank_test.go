package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

func TestRank(t *testing.T) {
	s, outcomes := sample()
	share := estimate.Estimate{Value: 0.42, Low: 0.37, High: 0.48}
	r := study.Ranking{Site: s, Thorough: true, Notes: []string{"Another note."}}
	for i, o := range outcomes {
		c := study.RankedChoice{Choice: o.Choice, Likely: likely}
		for j := range 2 + 5*i {
			in := study.RankedInput{Path: "care.response", Low: "lognormal: half within 36 h, nine in ten within 96 h", Likely: "x", High: "×2", Given: j == 0, AtLow: rare, AtHigh: likely,
				Swing: estimate.Estimate{Value: math.Inf(1), Low: 1, High: math.Inf(1)}}
			switch j {
			case 1:
				in.Called, in.Path = "yearly failure rate of the 12 TB drives", "drives.12 TB.life.afr"
			case 2:
				in.Called, in.Path = "time between scrubs", "care.scrub"
			}
			if j > 0 {
				in.Swing, in.First, in.Total = twice, &share, &share
			}
			if j == 2 {
				in.Swing = estimate.Estimate{Value: 1.01, Low: 1, High: 1.02}
			}
			c.Inputs = append(c.Inputs, in)
		}
		r.Choices = append(r.Choices, c)
	}
	narrowGolden(t, "rank.txt", show(t, func(b *strings.Builder) error { return Rank(b, r) }))
}
