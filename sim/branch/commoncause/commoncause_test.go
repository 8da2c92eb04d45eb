package commoncause

import (
	"testing"

	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat/distuv"
)

// running and spare are, by group, the drives that run and the failures that it stands.
var running, spare = []int{3, 4, 5, 5}, []int{0, 1, 2, 2}

// four is four groups of five drives with double parity, of which the first has two drives
// down and the second one, at an event that strikes each drive with chance 0.2.
func four() (s *Strikes, hits []Hit) {
	s = New(5, 2, 0.2)
	for g := range running {
		hits = append(hits, s.Hit(g, running[g], spare[g]))
	}
	return s, hits
}

// over is the chance that a group is struck by more than it stands, by gonum.
func over(g int) float64 {
	return 1 - distuv.Binomial{N: float64(running[g]), P: 0.2}.CDF(float64(spare[g]))
}

// The numbers struck are drawn from a mixture that favours one group. Its weights
// restore the binomial law of each group, gonum's, and of two groups together.
func TestDraw(t *testing.T) {
	t.Parallel()
	s, hits := four()
	rnd := stream.New(51, 1)
	var chances [4][6]simtest.Mean
	var both simtest.Mean // groups 1 and 2 lose one drive each
	for range 200000 {
		w := s.Draw(rnd, hits, rnd.Float64())
		if w > 2+1e-12 {
			t.Fatalf("a weight of %g", w)
		}
		for i, h := range hits {
			for k := range chances[i] {
				x := 0.0
				if h.Struck == k {
					x = w
				}
				chances[i][k].Add(x)
			}
		}
		x := 0.0
		if hits[1].Struck == 1 && hits[2].Struck == 1 {
			x = w
		}
		both.Add(x)
	}
	prob := func(g, k int) float64 { return distuv.Binomial{N: float64(running[g]), P: 0.2}.Prob(float64(k)) }
	for g := range chances {
		for k := 0; k <= min(3, running[g]); k++ {
			chances[g][k].Is(t, "drives struck", prob(g, k))
		}
	}
	both.Is(t, "one in each of two", prob(1, 1)*prob(2, 1))
}

// The drives struck where an event loses a set are drawn on that condition: the
// frequency of every outcome is its binomial chance ÷ the chance of a loss, by
// chi-square.
func TestDrawLoss(t *testing.T) {
	t.Parallel()
	s, hits := four()
	rnd := stream.New(52, 1)
	const draws = 60000
	seen := map[[4]int]float64{}
	for range draws {
		var struck [4]int
		lost := s.DrawLoss(rnd, hits, struck[:])
		seen[struck]++
		if n := struck[lost]; n <= spare[lost] {
			t.Fatalf("group %d is lost to %d failures", lost, n)
		}
	}
	stands := 1.0
	for g := range running {
		stands *= 1 - over(g)
	}
	sum, cells, rest := 0.0, 0, float64(draws)
	var struck [4]int
	var walk func(g int, p float64, lost bool)
	walk = func(g int, p float64, lost bool) {
		if g == 4 {
			want := 0.0
			if lost {
				want = draws * p / (1 - stands)
			}
			if want > 5 {
				sum += (seen[struck] - want) * (seen[struck] - want) / want
				cells++
				rest -= seen[struck]
			} else if want == 0 && seen[struck] > 0 {
				t.Errorf("a loss with %v drives struck", struck)
			}
			return
		}
		for k := 0; k <= running[g]; k++ {
			struck[g] = k
			walk(g+1, p*distuv.Binomial{N: float64(running[g]), P: 0.2}.Prob(float64(k)), lost || k > spare[g])
		}
	}
	walk(0, 1, false)
	if p := (distuv.ChiSquared{K: float64(cells - 1)}).Survival(sum); p < 1e-4 || rest > 0.01*draws || cells < 50 {
		t.Errorf("chi-square %.1f over %d cells, of chance %.2g; %g of %d outside of them", sum, cells, p, rest, draws)
	}
}
