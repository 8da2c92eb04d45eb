package lesson

import (
	"math"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/teach"
)

// lessonSample is three invented questions: riskier, less so, and safer by far.
func lessonSample() lesson {
	r := chartstest.Sample()
	o := r.Outcomes[2]
	est := func(v, rel float64) estimate.Estimate {
		return estimate.Estimate{Value: v, Low: v * (1 - rel), High: v * (1 + rel), RelativeError: rel / 1.96}
	}
	at := func(text string, v float64) teach.Point {
		return teach.Point{Text: text, Loss: est(v, 0.045)}
	}
	own := at("12 TB, 8 drives", 1.31e-3)
	return lesson{teach.Lesson{Site: r.Site, Choice: o.Choice, Sizing: o.Sizing, Seed: 3, Loss: own.Loss, Assumptions: r.Assumptions, Questions: []teach.Question{
		{Key: "size", Title: "Larger drives", Ask: "The same footage on drives of 24 TB in place of 12 TB, so that fewer are needed. How many times riskier, or safer, is that?",
			Points: []teach.Point{at("8 TB, 11 drives", 1.27e-3), own, at("18 TB, 6 drives", 1.36e-3), at("24 TB, 5 drives", 1.52e-3)}, Before: 1, After: 3,
			Times: estimate.Estimate{Value: 1.16, Low: 1.12, High: 1.2},
			Facts: []teach.Fact{{Name: "Drives", Before: "8", After: "5"}, {Name: "Hours of one rebuild", Before: "20 h", After: "39 h"}, {Name: "Pairs of drives that can be lost together", Before: "28", After: "10"}},
			Why:   "A rebuild of twice the bytes takes twice as long, so a second failure has twice the time. But fewer drives are there to fail."},
		{Key: "response", Title: "A slower response", Ask: "The new drive comes after a week in place of a day. How many times riskier is that?",
			Points: []teach.Point{at("4 h", 7.1e-4), {Text: "1 day", Loss: own.Loss}, at("3 days", 2.6e-3), at("7 days", 5.4e-3), {Text: "30 days", Absent: "the run was too short"}}, Before: 1, After: 3,
			Times: estimate.Estimate{Value: 4.1, Low: 3.9, High: 4.35}, Facts: []teach.Fact{{Name: "Hours exposed at each failure", Before: "44 h", After: "188 h"}}, Why: "Risk grows with the hours exposed."},
		{Key: "parity", Title: "A second parity drive", Ask: "One more drive, for double parity. How many times safer?",
			Points: []teach.Point{{Text: "single parity, 8 drives", Loss: own.Loss}, at("double parity, 9 drives", 4.9e-7)}, Before: 0, After: 1,
			Times: estimate.Estimate{Value: 3.74e-4, Low: 3.5e-4, High: 4e-4}, Facts: []teach.Fact{{Name: "Failures borne", Before: "1", After: "2"}}, Why: "Three failures must fall into one outage."},
	}}}
}

func TestWhatALessonSays(t *testing.T) {
	t.Parallel()
	text := chartstest.CheckPage(t, func() page.Contents { return lessonSample().contents() },
		"3 questions about 8 x 12 TB, single parity. Predict first, then look.",
		"1. <bdi>Larger drives</bdi>", "1.16 times riskier", "95 % interval: 1.120 to 1.200 times",
		"2 700 times safer", "the run was too short", "Hours of one rebuild", "twice the time",
		"1 in 760 (1 in 800 to 1 in 730)", "RAID is no backup", `aria-live="polite"`, "disabled", "My prediction:", "local law",
	)
	for _, bad := range []string{"localStorage", "sessionStorage"} {
		if strings.Contains(text, bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	if bare := chartstest.Render(t, lessonSample().contents(), ""); !strings.Contains(bare, "lesson-data") {
		t.Error("the page without the chart script cannot be answered")
	}
}

func TestLessonWithoutQuestions(t *testing.T) {
	t.Parallel()
	l := lessonSample()
	l.Questions = nil
	chartstest.CheckPage(t, func() page.Contents { return l.contents() }, "There is nothing to ask about", `"questions":null`)
}

// The words for how many times, on both sides of 1 and at it.
func TestAnswer(t *testing.T) {
	t.Parallel()
	q := lessonSample().Questions[0]
	for _, c := range []struct {
		times estimate.Estimate
		want  string
	}{
		{estimate.Estimate{Value: 4, Low: 3.5, High: 4.5}, "4.0 times riskier; 95 % interval: 3.50 to 4.50 times"},
		{estimate.Estimate{Value: 0.25, Low: 0.2, High: 0.5}, "4 times safer; 95 % interval: 2.0 to 5.0 times"},
		{estimate.Estimate{Value: 4, Low: 3.99, High: 4.01}, "4.000 times riskier; 95 % interval: ±0.3 %"},
		{estimate.Estimate{Value: 1.01, Low: 0.98, High: 1.04}, "No difference that the simulation can tell; 95 % interval: 1.02 times safer to 1.04 times riskier"},
		{estimate.Estimate{Value: 1, Low: 0.999, High: 1.001}, "No difference that the simulation can tell; 95 % interval: less than 1 % either way"},
		{estimate.Estimate{Value: 1, Low: 1, High: 1}, "Exactly as safe as before; it makes no difference"},
		{estimate.Estimate{Value: 0.01, Low: 0, High: 0.5}, "100 times safer; 95 % interval: 2 and more times"},
		{estimate.Estimate{}, "Safer than the simulation can tell: no loss was found any more; "},
		{estimate.Estimate{Value: math.Inf(1)}, "How many times riskier or safer is not known: no loss was found as it stands; "},
		{estimate.Estimate{Value: math.NaN()}, "How many times riskier or safer is not known: no loss was found as it stands; "},
	} {
		q.Times = c.times
		main, interval := answerWords(q)
		if got := main + "; " + interval; got != c.want {
			t.Errorf("%v is %q, want %q", c.times, got, c.want)
		}
	}
	q.Points[3].Absent = "3 drives, and RAID 6 wants 4"
	if main, why := answerWords(q); main != "There is no figure for it" || why != "24 TB, 5 drives: 3 drives, and RAID 6 wants 4" {
		t.Errorf("%q, %q", main, why)
	}
}

func TestVerdict(t *testing.T) {
	t.Parallel()
	q := lessonSample().Questions[1] // 4.1 times riskier, 3.9 to 4.35
	for _, c := range []struct {
		times float64
		want  string
	}{
		{4, "within what the simulation leaves open"}, {5, "very nearly"}, {41, "too high, by about 10 times."}, {1, "too low, by about 4.1 times."},
		{0.1, "too low, by about 41 times, and it goes the other way."},
	} {
		if got := verdictOn(q, guess{Times: c.times}); !strings.Contains(got, c.want) {
			t.Errorf("of %v it is said %q, want %q", c.times, got, c.want)
		}
	}
}

// The slider reaches a thousand times either way, alike on both sides.
func TestGuesses(t *testing.T) {
	t.Parallel()
	all := guesses()
	if len(all) != 61 || all[30].Times != 1 || math.Abs(all[0].Times-0.001) > 1e-9 || math.Abs(all[60].Times-1000) > 1e-6 {
		t.Fatalf("%d places from %v by %v to %v", len(all), all[0], all[30], all[60])
	}
	for i, g := range all {
		if other := all[60-i]; math.Abs(g.Times*other.Times-1) > 1e-9 {
			t.Errorf("place %d is %v and its other %v", i, g.Times, other.Times)
		}
		if i > 0 && !(g.Times > all[i-1].Times) {
			t.Errorf("place %d does not rise", i)
		}
	}
	if all[40].Text != "about 10 times riskier" || all[0].Text != "about 1\u202f000 times safer" || all[27].Text != "about 2 times safer" {
		t.Errorf("%q, %q, %q", all[40].Text, all[0].Text, all[27].Text)
	}
}

func hostileLesson() lesson {
	l := lessonSample()
	l.Site.Name, l.Choice.Label = chartstest.Hostile, chartstest.Hostile
	for i := range l.Questions {
		q := &l.Questions[i]
		q.Title, q.Ask, q.Why = chartstest.Hostile, chartstest.Hostile, chartstest.Hostile
		for j := range q.Points {
			q.Points[j].Text = chartstest.Hostile
		}
		q.Facts = []teach.Fact{{Name: chartstest.Hostile, Before: chartstest.Hostile, After: chartstest.Hostile}}
	}
	l.Questions[1].Points[4].Absent = chartstest.Hostile
	l.Questions[2].Points[1].Loss, l.Questions[2].Times = estimate.Estimate{}, estimate.Estimate{} // no loss found
	return l
}

func TestLessonLabelsAreText(t *testing.T) {
	t.Parallel()
	chartstest.CheckNoMarkup(t, hostileLesson().contents())
}
