package sheet

import (
	"encoding/base64"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/choose"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// check holds a sheet against what is wanted of it and of any.
func check(t *testing.T, c study.Comparison, want ...string) string {
	t.Helper()
	text := written(t, c)
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("the sheet does not say %q", w)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "<nil>", "%!", "<script", "http:", "https:", "url(", "ZgotmplZ"} {
		if strings.Contains(text, bad) {
			t.Errorf("the sheet holds %q", bad)
		}
	}
	if text != written(t, c) {
		t.Error("two sheets of the same results differ")
	}
	return text
}

func lacks(t *testing.T, text string, not ...string) {
	t.Helper()
	for _, n := range not {
		if strings.Contains(text, n) {
			t.Errorf("the sheet says %q", n)
		}
	}
}

func TestSheet(t *testing.T) {
	t.Parallel()
	text := check(t, sample(),
		"Saltmarsh ferry terminal", "Saltmarsh Ferries", "SF-114", "Harbour planning office", "31 March 2027",
		"Which of 8 choices keeps the footage of 44 cameras for up to 60 days, over 5 years of service?",
		"Recommendation", "8 x 12 TB, double parity: the cheapest here that meets the goal, at most 1 in 1 000", "the goal is met in 75 % of the settings",
		"1 in 790 000", "1 in 24 million to 1 in 198 000", "recommended", "goal: 1 in 1 000", "holds too little",
		"Fewer than 1 of 10 000</strong> sites like this lose footage in 5 years (1 in 790 000). So none is marked.",
		"<span class=\"price\">to buy, EUR</span>", "4 720 EUR to buy, ", "EUR over 5 years",
		"<bdi class=\"name\">Yearly failure rate of the 12 TB drives</bdi>: <bdi>0.8 % to 4 %, most likely 1.5 %</bdi>; at the high end losses are 30 times as likely as at the low end. <small>range given for this site",
		"at the low end losses are 4 times as likely as at the high end. <small>range not given, taken as half to twice, at most 1, a guess",
		"<bdi>within 8 h, Mon-Fri 08:00-17:00; from 0.5 to 2 times that</bdi>",
		"Losses come 70 % by further failures while a failed drive waits",
		"Of clips that are asked for, 1 in 4 200 is missing: 50 % by the recorder&#39;s power supply and 50 % by mains outages",
		"Not counted, and it would turn the answer:</b> With a rebuild that ends at the first sector that it cannot read it would lose footage 40 times as often.",
		"RAID is no backup", "not a promise", "local law on retention and privacy", "qualified people",
		"<span>Date</span><span>Signature, <bdi>Harbour planning office</bdi></span>",
		"seed 1", "64 settings")
	lacks(t, text, "Time until a failure is noticed", "<img") // a fourth assumption
	// The recommended one is called so once, and stands among the others, safest first.
	if n := strings.Count(text, "<em>recommended</em>"); n != 1 {
		t.Errorf("%d choices are recommended", n)
	}
	if got, want := fmt.Sprint(numbers(text)), "[6 5 7 3 4 1 8 2]"; got != want {
		t.Errorf("rows %s, want %s", got, want)
	}
}

// numbers returns the numbers of the rows in their order.
func numbers(text string) (all []string) {
	for _, m := range regexp.MustCompile(`class="row[^"]*"><span class="who"><span class="badge">.*?<b>(\d+)</b>`).FindAllStringSubmatch(text, -1) {
		all = append(all, m[1])
	}
	return all
}

func TestLogoIsWithin(t *testing.T) {
	t.Parallel()
	c := sample()
	c.Site.Document.Logo = logoPNG(t)
	check(t, c, `<img class="logo" src="data:image/png;base64,`+strings.NewReplacer("+", "&#43;").Replace(base64.StdEncoding.EncodeToString(c.Site.Document.Logo.Bytes))+`"`,
		`width="160" height="60"`, "img-src data:")
}

func TestNothingElse(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name       string
		is         study.Comparison
		want, lack []string
	}{
		{"no goal", noGoal(), []string{"What can be said", "The file states no goal.", "The safest is"}, []string{"<em>recommended", "Recommendation<", "goal: 1 in"}},
		{"plain", plain(sample()), []string{"as entered, and its interval", "the 95 % interval of the simulation", "was not worked out", "no proof that there is none", "life by life"}, []string{"in all, and its spread", "were tried.", "settings"}},
		{"bare", bare(), []string{"Unnamed site", "keeps its footage best over 5 years?", ">drives</span>", "10 drives."}, []string{"<dl>", "EUR", "Signature,", "holds too little"}},
		{"busy", busy(), []string{"too busy to be simulated", "not simulated"}, nil},
		{"one", one(), []string{"How safely does 8 x 12 TB, double parity keep the footage of 44 cameras", "Recommendation"}, []string{"Which of", "Left out here"}},
		{"many", many(200, 100), []string{"Left out here: 192 of 200 choices", "choice 101: the cheapest here that meets the goal", "choice 102"}, []string{"choice 150", "choice 2<"}},
		{"none meets the goal", strict(), []string{"What can be said", "None of the choices that hold the footage meets the goal"}, []string{"<em>recommended"}},
		{"none holds", small(), []string{"None of these choices holds the footage", "holds too little"}, []string{"<em>recommended", `class="icons"`}},
		{"no loss", lossless(), []string{"8 x 12 TB, double parity: the cheapest", "None of 10 000</strong> sites like this lose footage in 5 years.<", "<strong>none</strong>", "M18 2V18L2 10Z"}, []string{"So none is marked"}},
		{"estimated", estimated(), []string{"Some bit rates are estimates"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := check(t, c.is, append(c.want, "RAID is no backup", "<span>Date</span>")...)
			lacks(t, text, c.lack...)
		})
	}
}

func noGoal() study.Comparison { c := sample(); c.Site.Goal = nil; return c }
func strict() study.Comparison {
	c := sample()
	c.Site.Goal = &array.Goal{LossChance: 1e-12}
	return c
}
func lossless() study.Comparison {
	c := sample()
	o := &c.Outcomes[4]
	o.Result.LossChance, o.Result.LossShares = estimate.Exact(0), nil
	o.Doubt.LossInAll, o.Doubt.Low, o.Doubt.Median, o.Doubt.High, o.Doubt.Moves = estimate.Exact(0), 0, 0, 0, nil
	return c
}
func small() study.Comparison {
	c := sample()
	for i := range c.Outcomes {
		c.Outcomes[i].Sizing.Meets = false
	}
	return c
}
func estimated() study.Comparison {
	c := sample()
	c.Site.Cameras[0].Picture = array.Picture{Pixels: 3e6, FramesPerSecond: 25, Codec: array.H264}
	return c
}
func one() study.Comparison {
	c := sample()
	c.Outcomes = c.Outcomes[4:5]
	l := &c.Doubt.LeftOut[0]
	l.Factor, l.Chance = l.Factor[4:5], l.Chance[4:5]
	return c
}

func TestTextStaysText(t *testing.T) {
	t.Parallel()
	text := check(t, longest(t, chartstest.Hostile), "&lt;script&gt;window.hit=1&lt;/script&gt;")
	if n := strings.Count(text, "<img"); n != 1 {
		t.Errorf("%d pictures, want the logo alone", n)
	}
	lacks(t, text, "onerror=\"", "\u2028", "\u2029")
}

// Of a search the finalists are compared, and it has the word.
func TestSearch(t *testing.T) {
	t.Parallel()
	found := choose.Found{Finalists: sample(), Designs: make([]choose.Design, 384), Recommended: 5, RunnerUp: 4, Says: []string{"The sixth it is.", "For a reason."}}
	var b strings.Builder
	if err := WriteSearch(&b, found); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"They are the finalists of 384 designs that were searched.", "The sixth it is.</p>", "For a reason.</p>",
		`<bdi class="name">8 x 12 TB, double parity and a hot spare</bdi><em>recommended`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	lacks(t, b.String(), "the cheapest here that meets")
}

// A point lies between the ends of its line, and a tenth of a chance a decade to the
// left, wherever the axis begins.
func TestPlot(t *testing.T) {
	t.Parallel()
	a := axis{Min: -4, Max: 0, Step: 1}
	for p, want := range map[float64]string{1: "97", 0.1: "73.5", 0.01: "50", 1e-4: "3", 1e-9: "3"} {
		if got := a.place(p); got != want {
			t.Errorf("%g stands at %s %%, want %s", p, got, want)
		}
	}
	m := sheet{Comparison: sample()}.mark(0)
	drawn := string(a.plot(estimate.Estimate{Value: 0.01, Low: 1e-3, High: 0.1}, m.Symbol, 1e-4, "a & b"))
	for _, want := range []string{`aria-label="a &amp; b"`, `<line x1="26.5%" x2="73.5%" y1="50%"`, `<svg x="50%" y="50%"`, `<line x1="3%" x2="3%" y1="0" y2="100%" stroke="#22303a" stroke-width="1.5" stroke-dasharray="4 3"/>`} {
		if !strings.Contains(drawn, want) {
			t.Errorf("%q is not in %s", want, drawn)
		}
	}
	if none := string(a.plot(estimate.None(), m.Symbol, 0, "")); strings.Contains(none, "path") || strings.Contains(none, "dash") {
		t.Errorf("what is not known is drawn: %s", none)
	}
}

// So many icons are marked, and the rest is not: the lengths of the rows add up.
func TestIcons(t *testing.T) {
	t.Parallel()
	rows := regexp.MustCompile(`M([\d.]+) ([\d.]+)h([\d.]+)`)
	for _, n := range []int{0, 1, 5, 100, 137, 299, 300, 6049, 10_000} {
		drawn := string(icons(n))
		if len(drawn) > 4000 {
			t.Errorf("%d: %d bytes", n, len(drawn))
		}
		count := map[string]int{}
		for _, path := range regexp.MustCompile(`<path [^>]*stroke="(#\w+)"[^>]*d="([^"]*)"`).FindAllStringSubmatch(drawn, -1) {
			for _, r := range rows.FindAllStringSubmatch(path[2], -1) {
				var long float64
				fmt.Sscan(r[3], &long)
				count[path[1]] += int(math.Ceil(long))
			}
		}
		if count["#22303a"] != n || count["#b4c1c7"] != 10_000-n {
			t.Errorf("%d: drawn %v", n, count)
		}
		if ring := strings.Contains(drawn, "<rect"); ring != (n > 0 && n < few) {
			t.Errorf("%d: ring %t", n, ring)
		}
	}
}

// What is recommended stays in sight, wherever it is.
func TestShown(t *testing.T) {
	t.Parallel()
	for _, place := range []int{0, 3, 100, 199} {
		text := written(t, many(200, place))
		rows := numbers(text)
		if len(rows) != mostRows || !strings.Contains(text, fmt.Sprintf(`<bdi class="name">choice %d</bdi><em>recommended`, place+1)) {
			t.Errorf("recommended %d, shown %v", place+1, rows)
		}
	}
}
