package vary

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

var unknownFigure = estimate.None()

// variedSample is an invented sweep with everything such a page must show: chances
// from 1e-11 to 0.6, curves that cross, one that falls short and one with values
// that it lacks, no loss at some, a ratio without an end, a warning.
func variedSample() sweep {
	s := chartstest.Sample()
	v := sweep{study.Sweep{Site: s.Site, Seed: 1, Accuracy: 0.05, Against: s.Outcomes[2].Choice.Label, Assumptions: s.Assumptions, Notes: []string{"A note on how it was done."}}}
	in := study.Input{Path: "care.response", Unit: "h", Log: true, Own: 24, OwnText: "24 h"}
	for i := range 9 {
		x := 4 * math.Pow(2, float64(i)*0.675)
		in.Values = append(in.Values, x)
		in.Texts = append(in.Texts, figure.Plain(math.Round(x*100)/100)+" h")
	}
	v.Inputs = []study.Input{in}
	for k, place := range []int{0, 2, 5, 7} {
		c := study.Curve{Choice: s.Outcomes[place].Choice, Own: s.Outcomes[place].Result.LossChance}
		for i, x := range in.Values {
			p := study.Point{Drives: c.Choice.Drives, Meets: k != 1 || i < 5, Purchase: 2400, Clip: chartstest.Around(2.4e-4, 0.02), Against: unknownFigure}
			loss := c.Own.Value * math.Pow(x/24, []float64{0, 1.3, 7, 3.9}[k])
			p.Loss = chartstest.Around(math.Min(loss, 0.9), 0.04)
			p.Loss.RelativeError += 1e-9 * float64(i) // no two values are of one system
			p.ToOwn, p.Apart = chartstest.Around(p.Loss.Value/c.Own.Value, 0.004), chartstest.Around(p.Loss.Value/c.Own.Value, 0.06)
			if k != 1 {
				p.Against = chartstest.Around(p.Loss.Value/(1.31e-3*math.Pow(x/24, 1.3)), 0.05)
			}
			switch {
			case k == 2 && i < 2:
				p = study.Point{Drives: 14, Absent: "14 drives, and the recorder has 12 bays", Purchase: math.NaN(), Loss: unknownFigure, Clip: unknownFigure, ToOwn: unknownFigure, Apart: unknownFigure, Against: unknownFigure}
			case k == 3 && i < 2:
				p.Loss, p.ToOwn = estimate.Estimate{}, estimate.Estimate{High: math.Inf(1), RelativeError: 1}
			case k == 2 && i == 8:
				p.Warnings = []string{"three trials carry half of the loss chance"}
			}
			c.Points = append(c.Points, p)
		}
		v.Curves = append(v.Curves, c)
	}
	v.BreakEven = &study.BreakEven{Goal: "a loss chance of 1 in 10 000 within 5 years", Chance: 1e-4, Rows: []study.BreakEvenRow{
		{Choice: v.Curves[1].Choice, Value: chartstest.Around(7.2, 0.04), Text: "7.2 h"},
		{Choice: v.Curves[0].Choice, Value: unknownFigure, Words: "riskier over the whole range: 49 in 100 at 4 h, 49 in 100 at 107 h"},
	}}
	return v
}

// wordsSample has values that are words, as drives are, with other numbers of them.
func wordsSample() sweep {
	v := variedSample()
	v.Inputs = []study.Input{{Path: "choices.*.drive", Texts: []string{"8 TB", "12 TB", "18 TB"}, Own: math.NaN(), OwnText: "differs from choice to choice"}}
	v.BreakEven = nil
	for i := range v.Curves {
		v.Curves[i].Points = v.Curves[i].Points[1:4]
		for k := range v.Curves[i].Points {
			v.Curves[i].Points[k].Drives = 9 - k
		}
	}
	return v
}

// heatSample is two inputs of 6 and 5 values for so many choices.
func heatSample(choices int) sweep {
	s := chartstest.Sample()
	v := sweep{study.Sweep{Site: s.Site, Seed: 1, Accuracy: 0.05, Assumptions: s.Assumptions}}
	v.Inputs = []study.Input{
		{Path: "care.response", Unit: "h", Log: true, Own: 24, OwnText: "24 h", Texts: []string{"4 h", "8 h", "16 h", "32 h", "64 h", "128 h"}, Values: []float64{4, 8, 16, 32, 64, 128}},
		{Path: "drives.12 TB.life.afr", Unit: "%", Own: 1.5, OwnText: "1.5 %", Texts: []string{"1 %", "2 %", "3 %", "4 %", "5 %"}, Values: []float64{1, 2, 3, 4, 5}},
	}
	for k := range choices {
		c := study.Curve{Choice: s.Outcomes[k].Choice, Own: chartstest.Around(1e-3*float64(k+1), 0.03)}
		for j := range 5 {
			for i := range 6 {
				loss := math.Min(0.9, 1e-3/float64(k+1)*math.Pow(v.Inputs[0].Values[i]/24, 1.2)*math.Pow(v.Inputs[1].Values[j]/1.5, float64(k+1)))
				p := study.Point{Drives: 8, Meets: k != 1, Purchase: math.NaN(), Loss: chartstest.Around(loss, 0.04), Clip: unknownFigure, ToOwn: chartstest.Around(loss*1e3, 0.01), Apart: chartstest.Around(loss*1e3, 0.05), Against: unknownFigure}
				switch {
				case k == 0 && i == 0 && j == 0:
					p.Loss = estimate.Estimate{}
				case k == 0 && i == 5 && j == 4:
					p.Absent, p.Loss = "14 drives, and the recorder has 12 bays", unknownFigure
				case k == 0 && i == 5 && j == 3:
					p.Loss = chartstest.Around(loss, 0.4)
				}
				c.Points = append(c.Points, p)
			}
		}
		v.Curves = append(v.Curves, c)
	}
	return v
}

// wordsHeatSample has words for both inputs.
func wordsHeatSample() sweep {
	v := heatSample(2)
	v.Inputs[0] = study.Input{Path: "choices.*.drive", Texts: []string{"8 TB", "10 TB", "12 TB", "16 TB", "18 TB", "20 TB"}, Own: math.NaN(), OwnText: "12 TB"}
	v.Inputs[1] = study.Input{Path: "care.unreadable", Texts: []string{"skip", "stop", "lognormal: half within 36 h, nine in ten within 96 h", "weekly", "none"}, Own: math.NaN(), OwnText: "skip"}
	return v
}

// madeHostile puts markup wherever a site file could.
func madeHostile(v sweep) sweep {
	v.Site.Name = chartstest.Hostile
	v.Against = chartstest.Hostile
	for i := range v.Inputs {
		v.Inputs[i].Path, v.Inputs[i].OwnText = chartstest.Hostile, chartstest.Hostile
		for k := range v.Inputs[i].Texts {
			v.Inputs[i].Texts[k] = chartstest.Hostile
		}
	}
	for i := range v.Curves {
		v.Curves[i].Choice.Label, v.Curves[i].Choice.Drive = chartstest.Hostile, array.Drive{Label: chartstest.Hostile}
		for k := range v.Curves[i].Points {
			p := &v.Curves[i].Points[k]
			p.Warnings = []string{chartstest.Hostile}
			if p.Absent != "" {
				p.Absent = chartstest.Hostile
			}
		}
	}
	v.Notes, v.Assumptions = []string{chartstest.Hostile}, []site.Assumption{{Path: chartstest.Hostile, Text: chartstest.Hostile}}
	if v.BreakEven != nil {
		v.BreakEven = &study.BreakEven{Goal: chartstest.Hostile, Rows: []study.BreakEvenRow{{Choice: v.Curves[0].Choice, Value: chartstest.Around(3, 0.1), Text: chartstest.Hostile, Words: chartstest.Hostile}}}
	}
	return v
}
