package now

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	now "arrayodds/sim/now"
)

// sample is an invented answer: one of eight drives down, with everything on the page.
func sample() tonight {
	s := chartstest.Sample()
	choice := s.Outcomes[0].Choice
	nan := math.NaN()
	st := array.State{HourOfWeek: 27, SpareIn: nan, TechnicianIn: 14, Scrubbed: nan, DriveIn: 10}
	for i := range choice.Drives {
		st.Drives = append(st.Drives, array.DriveState{Age: 20000 + 3000*float64(i%2), DownFor: nan, RebuiltFor: nan})
	}
	st.Drives[2].Down, st.Drives[2].DownFor, st.Drives[2].Label = true, 0.7, "bay 3"
	st.Drives[1].Defects = 2
	r := now.Result{
		Site: s.Site, Choice: choice, State: st, Down: 1, Tolerance: 1, Seed: 1, Accuracy: 0.05, Trials: 512, RebuildHours: 40,
		BeforeWhole: chartstest.Around(8e-4, 0.02), Loss: chartstest.Around(9e-4, 0.02), Assumptions: s.Assumptions,
		Whole: now.Whole{Median: chartstest.Around(54, 0.02), Ninety: chartstest.Around(80, 0.02), Lives: 2000, Not: estimate.Estimate{High: 0.002}},
	}
	r.Sizing.Shape = array.Shape{Sets: 1, GroupsPerSet: 1, DrivesInGroup: choice.Drives, Tolerance: 1}
	for h := 1.0; h <= now.Month; h++ {
		r.Curve = append(r.Curve, now.Point{Hours: h, Loss: chartstest.Around(9e-4*math.Min(1, h/60), 0.02+0.2/h)})
	}
	for i, name := range []string{"Let the rebuild go first", "Get the new drive in within 4 h", "Stop recording the gate", "Stop the scrub"} {
		ratio := chartstest.Around(0.5+0.15*float64(i), 0.03)
		if i == 3 {
			ratio = estimate.Exact(1)
		}
		r.Actions = append(r.Actions, now.Action{Name: name, What: "what it changes", Loss: r.Loss.Times(ratio.Value), Ratio: ratio, RebuildHours: 20})
	}
	r.Together = &now.Action{Name: "All of these that speed the rebuild up, together", Loss: chartstest.Around(2e-4, 0.03), Ratio: chartstest.Around(0.25, 0.03), RebuildHours: 12}
	for i, l := range []string{"gate", ""} {
		r.Copies = append(r.Copies, now.Copy{Label: l, Days: 7, Bytes: 3e12, Rate: 1e8, Hours: 8 * float64(i+1), Loss: chartstest.Around(1e-4, 0.05), Ratio: chartstest.Around(0.1, 0.05), Unreadable: 0.024, Delay: float64(i), Other: estimate.Exact(1)})
	}
	r.Says = now.Says{
		Headline: "One drive is down, and no redundancy is left: one more failure can lose the footage.",
		Chance:   []string{"1 in 1 250 to lose footage before all drives run again; 1 in 1 110 within 30 days.", "All drives should run again in about 54 hours, nine times in ten within 80 hours."},
		Do:       []string{"Let the rebuild go first: from 1 in 1 110 to 1 in 2 220.", "Get the new drive in within 4 h: from 1 in 1 110 to 1 in 1 700.", "Copy the footage that matters out now: the last 7 days of all cameras take 16 hours."},
		Dont:     []string{"Do not pull a drive before its number is read twice, and never a second one.", "Do not restart the recorder.", "Do not re-create, initialise or format the array, whatever it offers.", "Do not stop recording: it takes nothing off."},
		Notes:    []string{"Nothing is gained by “Stop the scrub”."},
	}
	return tonight{r}
}

func TestWhatThePageSays(t *testing.T) {
	t.Parallel()
	chartstest.CheckPage(t, func() page.Contents { return sample().contents() },
		"One drive is down, and no redundancy is left", "Do not pull a drive", "Hour by hour", "What can be done",
		"in the first 4 days", "over 30 days", "Drive 3 (bay 3) is down, for 42 minutes so far.", "It is Tue 03:00.",
		"Drive 2 has 2 sectors known to be unreadable.", "A technician can be there in 14 hours, a drive in 10 hours.",
		"All of these that speed the rebuild up, together", "nothing changes", "all cameras", "the rebuild takes up to 1 hour longer",
		"Nothing is gained by", "RAID is no backup", "a matter for a specialist", "common practice and has no source", "lifting by enough hands",
		"Lives begin in the state that was entered.")
	drill := Drill{Result: sample().Result, File: "choice = \"x\"\n"}
	chartstest.CheckPage(t, func() page.Contents { return drill.contents() },
		"Drill: the situation", "Read this out.", "Whom do you call?", "choice = &#34;x&#34;", "Do not restart the recorder.")
	lost := sample()
	lost.Down, lost.Curve, lost.Actions, lost.Copies, lost.Together = 2, nil, nil, nil, nil
	if text := chartstest.Render(t, lost.contents(), chartstest.StandIn); !strings.Contains(text, "Nothing was simulated: what is down decides.") || strings.Contains(text, "Hour by hour") {
		t.Error("the page of a lost array does not say that nothing was simulated, or has hours")
	}
}

func hostile() tonight {
	r := sample()
	r.Site.Name, r.Choice.Label = chartstest.Hostile, chartstest.Hostile
	r.State.Drives[2].Label, r.Copies[0].Label, r.Actions[2].Name = chartstest.Hostile, chartstest.Hostile, chartstest.Hostile
	r.Says.Do[0], r.Says.Notes[0] = chartstest.Hostile, chartstest.Hostile
	r.Assumptions = []site.Assumption{{Path: chartstest.Hostile, Text: chartstest.Hostile}}
	return r
}

func TestNoMarkup(t *testing.T) {
	t.Parallel()
	chartstest.CheckNoMarkup(t, hostile().contents())
}

func TestPageInABrowser(t *testing.T) {
	t.Parallel()
	chartstest.CheckInBrowser(t,
		chartstest.PageCase{Name: "now-hostile", Contents: hostile().contents(), Drawings: 3, Shapes: 10, Texts: 6, TipOf: "ranking", Tip: "95 % interval"},
		chartstest.PageCase{Name: "now", Contents: sample().contents(), Drawings: 3, Shapes: 10, Texts: 6, TipOf: "ranking", Tip: "95 % interval"},
	)
}

// The first screen of a phone, 390 by 700, has what to do and what not, to its end, and
// where the reader's system is dark so is the page.
func TestFirstScreen(t *testing.T) {
	t.Parallel()
	tab := chartstest.NewTab(t)
	tab.ShowBare("now-first", sample().contents(), 390)
	if got := tab.Ask(`document.querySelector(".tonight ul.dont").getBoundingClientRect().bottom <= 700`); got != "true" {
		t.Errorf("what not to do ends at %s pixels, below the first screen", tab.Ask(`document.querySelector(".tonight ul.dont").getBoundingClientRect().bottom`))
	}
	const paper = `getComputedStyle(document.querySelector("section")).backgroundColor`
	light := tab.Ask(paper)
	tab.Dark(true)
	if dark := tab.Ask(paper); dark == light {
		t.Errorf("the page is %s in the dark too", dark)
	}
}
