package study

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/array/thorough"
	"arrayodds/sim/engine"

	"gonum.org/v1/gonum/stat/distuv"
)

// Shares against the chain's own, of which the logarithm is taken at a grid of
// quantiles of the two triangular laws: covered by the intervals of 3 of 5 seeds (a true
// 95 % falls below in 1 of 860), with -calibrate of 17 of 20 (1 of 60), without make
// thorough of 2 of 3 (1 of 140). What the chain does not know hardly moves.
func TestSharesAgreeWithTheChain(t *testing.T) {
	if testing.Short() {
		t.Skip("coverage takes ten rankings, and fewer tell nothing")
	}
	t.Parallel()
	text := strings.Replace(chained, `capacity = "4 TB"`, `capacity = "4 TB"
batch_variance = { low = 0, likely = 0, high = 0.00001 }`, 1) + `
[hazards]
degraded_multiplier = { low = 1, likely = 1, high = 1.00001 }
`
	seeds, least := 5, 3
	switch {
	case *thorough.Calibrate:
		seeds, least = 20, 17
	case !thorough.Asked():
		seeds, least = 3, 2
	}
	for k, shape := range [][2]int{{5, 1}, {6, 2}} {
		if !thorough.Part(k, 2) {
			continue
		}
		first, total := chainShares(shape[0], shape[1])
		covered := [4]int{}
		var last RankedChoice
		for seed := range uint64(seeds) {
			a := asked(t, text, k)
			a.Options.Seed = 10 + seed
			got, err := Rank(context.Background(), a, true)
			if err != nil {
				t.Fatal(err)
			}
			last = got.Choices[0]
			for _, in := range last.Inputs {
				at := slices.Index([]string{"drives.4 TB.life.afr", "care.restore.exponential"}, in.Path)
				if at < 0 {
					continue
				}
				if in.First.Low <= first[at] && first[at] <= in.First.High {
					covered[at]++
				}
				if in.Total.Low <= total[at] && total[at] <= in.Total.High {
					covered[2+at]++
				}
				if in.Total.High-in.First.Low > 0.1 {
					t.Errorf("%s: first %+v, total %+v", in.Path, in.First, in.Total)
				}
			}
		}
		t.Logf("%v: first %.4f, total %.4f, covered by %v of %d", shape, first, total, covered, seeds)
		for _, n := range covered {
			if n < least {
				t.Errorf("%v: first %.4f, total %.4f, covered by %v of %d: %+v", shape, first, total, covered, seeds, last)
			}
		}
		if last.Noise > 0.02 || !(last.Spread.Low < last.Spread.Value && last.Spread.Value < last.Spread.High) {
			t.Errorf("noise %g, spread %+v", last.Noise, last.Spread)
		}
	}
}

// chainShares returns the shares of variance of rate and restoring time.
func chainShares(drives, tolerance int) (first, total [2]float64) {
	const n = 60
	law := distuv.NewTriangle(-1, 1, 0, nil)
	var at [n][n]float64
	var byRate, byRestore [n]float64
	mean, variance := 0.0, 0.0
	for i := range n {
		for j := range n {
			rate, restore := law.Quantile((float64(i)+0.5)/n), law.Quantile((float64(j)+0.5)/n)
			at[i][j] = math.Log(chain(drives, tolerance, 0.02*math.Pow(2, rate), 48*math.Pow(4, restore)))
			byRate[i] += at[i][j] / n
			byRestore[j] += at[i][j] / n
			mean += at[i][j] / n / n
		}
	}
	for i := range n {
		first[0] += (byRate[i] - mean) * (byRate[i] - mean) / n
		first[1] += (byRestore[i] - mean) * (byRestore[i] - mean) / n
		for j := range n {
			variance += (at[i][j] - mean) * (at[i][j] - mean) / n / n
		}
	}
	first[0], first[1] = first[0]/variance, first[1]/variance
	return first, [2]float64{1 - first[1], 1 - first[0]}
}

// Where no polynomial will do, for noise of plain lives here, sampling does; and the
// input that does nearly all has nearly all of the shares either way.
func TestSharesBySampling(t *testing.T) {
	t.Parallel()
	a := asked(t, `
name = "Noisy"
service_life = "5 y"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { afr = { low = "3 %", likely = "3.2 %", high = "3.5 %" } }
transfer = "200 MB/s"
[[choices]]
label = "alone"
drive = "4 TB"
layout = "JBOD"
drives = 1
[care]
restore = { exponential = "48 h" }
`, 0)
	likely, err := Rank(context.Background(), a, false)
	if err != nil {
		t.Fatal(err)
	}
	var inputs []axis.Input
	for _, in := range a.Source.Inputs() {
		if slices.ContainsFunc(likely.Choices[0].Inputs, func(r RankedInput) bool { return r.Path == in.Axis.Path }) {
			inputs = append(inputs, in)
		}
	}
	for plain, least := range map[bool]int{false: 0, true: shareRows * (len(inputs) + 2)} {
		if plain && !thorough.Asked() {
			continue
		}
		a.Options.Plain, a.Options.MaxTrials = plain, 1e6
		if plain {
			a.Options.MaxTrials = shareTrials
		}
		last := 0.0
		found, _, err := a.indices(context.Background(), 0, inputs, func(p engine.Progress) {
			if p.Share < last || p.Share > 1 {
				t.Errorf("from a share of %g to %g", last, p.Share)
			}
			last = p.Share
		})
		if err != nil {
			t.Fatal(err)
		}
		if found.Evaluations < least || !plain && found.Evaluations != leastRows {
			t.Errorf("plain %v: %d settings", plain, found.Evaluations)
		}
		for k, in := range inputs {
			if in.Axis.Path == "drives.4 TB.life.afr" && !(found.First[k].High > 0.1 && found.Total[k].Value > 0.1) {
				t.Errorf("plain %v: first %+v, total %+v of the rate", plain, found.First[k], found.Total[k])
			}
		}
	}
}
