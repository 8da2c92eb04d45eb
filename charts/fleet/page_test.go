package fleet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	fleet "arrayodds/sim/fleet"
	now "arrayodds/sim/now"
)

// sample is an invented answer: so many arrays, of which two are lost and every fourth of
// the others has a drive down.
func sample(arrays int) ranking {
	r := fleet.Result{
		Name: "Customers", Sites: 3, Lost: 2, Losses: chartstest.Around(0.29, 0.01), OfDegraded: chartstest.Around(0.15, 0.01),
		Year:       fleet.Year{Drives: 8 * arrays, Failures: chartstest.Around(14.5, 0.005), Most: estimate.FromInterval(22, 21, 22), Owed: 7},
		Models:     []fleet.Model{{Label: "18 TB", Arrays: arrays, Year: fleet.Year{Drives: 8 * arrays, Failures: chartstest.Around(14.5, 0.005), Most: estimate.Exact(22), Owed: 7}}, {Others: 3, Year: fleet.Year{Failures: estimate.Unseen(400, 1)}}},
		Replicates: 1000, Lives: 100_000, Seed: 1, Accuracy: 0.05, Notes: []string{"1 link was not followed, which leads to a folder or nowhere in this one: old."},
	}
	for i := range arrays {
		s := fleet.Standing{
			Name: fmt.Sprintf("north/array %d", i), Site: "Terminal", SiteAt: "north/site.toml", Choice: "8 x 18 TB", Model: "18 TB",
			Drives: 8, Tolerance: 1, BeforeWhole: estimate.Exact(0), Loss: chartstest.Around(1e-5/float64(i+1), 0.3), CameraDays: 1400,
			Failures: chartstest.Around(0.1, 0.05), Lives: 512,
		}
		switch {
		case i < 2:
			s.AreDown, s.Down, s.Loss, s.Advice = []int{1, 3}, 2, estimate.Exact(1), "Switch the recorder off. Leave every drive in its bay"
		case i < 2+arrays/4:
			r.Degraded++
			s.AreDown, s.Down, s.Owed = []int{3}, 1, 1
			s.Loss = chartstest.Around(2e-3/float64(i), 0.03)
			s.BeforeWhole = s.Loss.Times(0.9)
			s.Best = &now.Action{Name: "Get the new drive in within 4 h", Loss: s.Loss.Times(0.4), Ratio: chartstest.Around(0.4, 0.02)}
			s.Advice, s.TakesOff, s.Tied = s.Best.Name, s.Loss.Times(0.6), i == 4
		default:
			r.Whole++
		}
		r.Arrays = append(r.Arrays, s)
	}
	r.Arrays[3].Warnings = []string{"the loss chance rests on about 12 independent samples"}
	r.Arrays[arrays-1].CameraDays = math.NaN()
	return ranking{r}
}

func TestWhatThePageSays(t *testing.T) {
	t.Parallel()
	chartstest.CheckPage(t, func() page.Contents { return sample(40).contents() },
		"2 arrays are lost: more drives are down than they stand. 10 more have drives down.",
		"Lost: north/array 0 and north/array 1. Call", "First north/array 2: get the new drive in within 4 h, from 1", "40 arrays with 320 drives, of 3 site files.",
		"beside those that are lost, are to be expected to lose footage", "Drives to have for that year: 29, of which 7 are wanted now",
		"1 of 8 down, no redundancy left", "lost: 2 of 8 down", "≈ not told apart from the one above", "1 400 camera-days", "Warning: the loss chance rests on",
		"Shown are the first 12 of 40 arrays.", "3 other models", "not seen", "1 link was not followed", "Not drawn: 2 arrays that are lost already.",
		"RAID is no backup")
	whole := sample(40)
	for i := range whole.Arrays {
		s := &whole.Arrays[i]
		s.AreDown, s.Down, s.Best, s.Advice, s.TakesOff, s.Loss = nil, 0, nil, "", estimate.Exact(0), chartstest.Around(1e-6, 0.3)
	}
	whole.Lost, whole.Degraded, whole.Whole = 0, 0, 40
	chartstest.CheckPage(t, func() page.Contents { return whole.contents() }, "Every drive runs. Nobody has to go anywhere tonight.", "Nothing is to be done tonight.", "nothing tonight", "Shown are the first 5 of 40 arrays.")
}

// A page of very many arrays stays bounded, and says what it leaves out.
func TestLargeFleet(t *testing.T) {
	t.Parallel()
	text := chartstest.Render(t, sample(10_000).contents(), chartstest.StandIn)
	if len(text) > 400_000 {
		t.Errorf("%d bytes", len(text))
	}
	for _, want := range []string{"Shown are the first 100 of 10 000 arrays.", "Not drawn: 2 480 arrays with drives down, which are further down the order."} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %s", want)
		}
	}
}

// Of the models that are not shown it is said how many there are, those that the files sum up
// counted one by one.
func TestModelsThatAreNotShown(t *testing.T) {
	t.Parallel()
	r := sample(12)
	r.Models = nil
	for i := range mostModels + 40 {
		r.Models = append(r.Models, fleet.Model{Label: fmt.Sprintf("model %d", i), Arrays: 1, Year: fleet.Year{Drives: 8, Failures: chartstest.Around(1, 0.1), Most: estimate.Exact(2)}})
	}
	const alone = "Not shown: 40 models with fewer failures to expect, which stand in the files that --xlsx and --json write."
	if got := r.contents().Unlisted; got != alone {
		t.Errorf("%q, want %q", got, alone)
	}
	r.Models = append(r.Models, fleet.Model{Others: 30})
	if got, want := r.contents().Unlisted, alone+" Those with the fewest drives, 30 models, are summed up there."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func hostile() ranking {
	r := sample(12)
	r.Name, r.Notes = chartstest.Hostile, []string{chartstest.Hostile}
	for i := range r.Arrays {
		s := &r.Arrays[i]
		s.Name, s.Site, s.Choice, s.Advice = chartstest.Hostile, chartstest.Hostile, chartstest.Hostile, chartstest.Hostile
	}
	r.Models[0].Label = chartstest.Hostile
	return r
}

func TestNoMarkup(t *testing.T) {
	t.Parallel()
	chartstest.CheckNoMarkup(t, hostile().contents())
}

func TestPageInABrowser(t *testing.T) {
	t.Parallel()
	chartstest.CheckInBrowser(t,
		chartstest.PageCase{Name: "fleet-hostile", Contents: hostile().contents(), Drawings: 2, Shapes: 4, Texts: 4, TipOf: "visits", Tip: "95 % interval"},
		chartstest.PageCase{Name: "fleet", Contents: sample(100).contents(), Drawings: 2, Shapes: 8, Texts: 6, TipOf: "visits", Tip: "95 % interval"},
	)
}

func TestTickStep(t *testing.T) {
	t.Parallel()
	for most, want := range map[int]int{0: 1, 1: 1, 3: 1, 4: 2, 6: 2, 7: 5, 15: 5, 16: 10, 23: 10, 6095: 5000, 97: 50} {
		if got := tickStep(most); got != want {
			t.Errorf("%d: %d, want %d", most, got, want)
		}
	}
}
