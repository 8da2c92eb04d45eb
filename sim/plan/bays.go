package plan

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Bays is which drive goes where, and what spreading batches gains.
type Bays struct {
	Numbering array.Numbering
	Guessed   bool // the site file does not say how bays are numbered
	Rows      int
	Bays      []Bay

	Batches     int
	MostOfOne   int     // drives of one batch that a group holds at the most
	Variance    float64 // of the frailty of a batch, that the chances count with
	OneBatch    estimate.Estimate
	Dealt       estimate.Estimate
	EachItsOwn  estimate.Estimate
	Gain        estimate.Estimate // the chance of one batch ÷ that of Dealt
	MostGain    estimate.Estimate // the same of EachItsOwn
	Words       []string
	MixingWords []string
}

// Bay is one bay of the recorder, in the order of the numbering.
type Bay struct {
	Number      int
	Row, Column int  // from the top and the left, counted from 0
	Used        bool // a drive goes into it
	Spare       bool // a hot spare
	Group       int  // counted from 1; 0 of a spare
	Batch       int  // counted from 1
}

// guessedColumns is how many bays a row is drawn with where the site file does not say it.
const guessedColumns = 4

// bays deals the drives over the bays.
func (p Plan) bays(t tried) Bays {
	used := p.Choice.Drives + p.Choice.HotSpares
	bays := used
	out := Bays{Batches: p.batches(), Variance: t.Variance, OneBatch: t.One, Dealt: t.Dealt, EachItsOwn: t.Each, Gain: t.Gain, MostGain: t.MostGain}
	if r := p.Choice.Recorder; r != nil {
		bays = max(bays, r.Bays)
		out.Numbering = r.Numbering
	}
	if out.Numbering.Columns == 0 {
		out.Numbering, out.Guessed = array.Numbering{Columns: guessedColumns, From: 1}, true
	}
	out.Numbering.Columns = min(out.Numbering.Columns, bays)
	out.Rows = out.Numbering.Rows(bays)
	held := map[[2]int]int{}
	for at := range bays {
		b := Bay{Number: at + out.Numbering.From, Used: at < used, Spare: at >= p.Choice.Drives && at < used}
		b.Row, b.Column = out.Numbering.Place(at, bays)
		if b.Used {
			b.Batch = at%out.Batches + 1
		}
		if b.Used && !b.Spare {
			b.Group = at/p.Sizing.Shape.DrivesInGroup + 1
			held[[2]int{b.Group, b.Batch}]++
			out.MostOfOne = max(out.MostOfOne, held[[2]int{b.Group, b.Batch}])
		}
		out.Bays = append(out.Bays, b)
	}
	out.Words = p.bayWords(out, used, bays)
	out.MixingWords = p.mixingWords(out)
	return out
}

func (p Plan) bayWords(b Bays, used, bays int) (all []string) {
	n := b.Numbering
	where := map[bool]string{false: "top", true: "bottom"}[n.Bottom] + " " + map[bool]string{false: "left", true: "right"}[n.Right]
	runs := map[bool]string{false: "across", true: "along the columns"}[n.Down]
	if b.Guessed {
		all = append(all, fmt.Sprintf("The site file does not say how the bays are numbered (recorder.numbering). Drawn from %s, %s, %d to a row: a guess. Check it at the recorder before any drive is pulled: the wrong one pulled from a degraded group loses the footage.", where, runs, n.Columns))
	} else {
		all = append(all, fmt.Sprintf("Seen from the front, numbered from %d at the %s, %s. Check it at the recorder before any drive is pulled.", n.From, where, runs))
	}
	text := fmt.Sprintf("%d of %s used", used, figure.Count(bays, "bay", "bays"))
	if p.Choice.Recorder == nil || p.Choice.Recorder.Bays == 0 {
		text = figure.Count(used, "bay", "bays") + " used; how many the recorder has is not given"
	}
	return append(all, text+". Label each drive's carrier with its bay, its group and its serial number, and keep the list of serial numbers with this sheet.")
}

// mixingWords says how batches are spread, and what that gains.
func (p Plan) mixingWords(b Bays) (all []string) {
	say := func(format string, a ...any) { all = append(all, fmt.Sprintf(format, a...)) }
	shape := p.Sizing.Shape
	if b.Batches == 1 {
		say("All drives come from one batch (build.batches).")
	} else {
		say("The drives are dealt in turn from %d batches (build.batches): deliveries of different weeks, or of different lots by their serial numbers.", b.Batches)
	}
	if shape.DrivesInGroup > 1 && b.Batches > 1 {
		survives := "more than a group survives: a fault of the whole batch still loses it"
		if b.MostOfOne <= shape.Tolerance {
			survives = "no more than a group survives: a fault of the whole batch loses nothing"
		}
		say("No group holds more than %d of its %d from one batch, which is %s.", b.MostOfOne, shape.DrivesInGroup, survives)
		if need := (shape.DrivesInGroup + shape.Tolerance - 1) / max(1, shape.Tolerance); b.MostOfOne > shape.Tolerance && shape.Tolerance > 0 {
			say("From %d batches on it would be no more.", need)
		}
	}
	ground := "as the site file has it"
	if p.Choice.Drive.BatchVariance == 0 {
		ground = "a guess, since the site file counts with none and all its other figures with it"
	}
	if b.OneBatch.Value > 0 && b.Dealt.Value > 0 {
		say("Simulated, with drives of one batch alike by batch_variance %s (%s): all of one batch, %s within %s; dealt from %d, %s; every drive from a batch of its own, %s.",
			unit.Digits(b.Variance, 3), ground, odds(b.OneBatch), p.life(), b.Batches, odds(b.Dealt), odds(b.EachItsOwn))
		say("%s", gainWords(b))
	} else {
		say("Simulated with batch_variance %s (%s), no loss was seen, and so no gain can be told.", unit.Digits(b.Variance, 3), ground)
	}
	if p.Choice.Drive.BatchVariance > 0 && b.Batches > 1 {
		say("All other sheets count with one batch, as every command does: they are on the safe side of this.")
	}
	return all
}

// gainWords says how many times less a loss is where batches are spread.
func gainWords(b Bays) string {
	rarer := func(e estimate.Estimate) string {
		return fmt.Sprintf("%s times rarer (%s)", figure.Ratio(e), figure.RatioInterval(e))
	}
	switch {
	case b.Batches == 1 && b.MostGain.Low <= 1:
		return fmt.Sprintf("Spreading would gain nothing that can be told from none: with every drive from a batch of its own a loss is %s.", rarer(b.MostGain))
	case b.Batches == 1:
		return fmt.Sprintf("Spreading would gain something: with every drive from a batch of its own a loss is %s.", rarer(b.MostGain))
	case b.Gain.High < 1:
		return fmt.Sprintf("So spreading over %d gains nothing here, a loss is %s: where any failure is a loss, drives that share their fate fail in fewer lives, and more at once.", b.Batches, rarer(b.Gain))
	case b.Gain.Low <= 1:
		return fmt.Sprintf("So spreading over %d gains nothing that can be told from none: a loss is %s; with every drive from its own, %s.", b.Batches, rarer(b.Gain), rarer(b.MostGain))
	}
	return fmt.Sprintf("So spreading over %d makes a loss %s; with every drive from a batch of its own it would be %s. It costs nothing but asking.", b.Batches, rarer(b.Gain), rarer(b.MostGain))
}

// life returns the service life in words.
func (p Plan) life() string { return figure.Years(p.Site.ServiceLife / unit.HoursPerYear) }
