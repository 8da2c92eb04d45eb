package sim

import (
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// E1 to E5: Elerath, Pecht, "Enhanced Reliability Modeling of RAID Storage
// Systems", DSN 2007 (DOI 10.1109/DSN.2007.41). Figures quoted from memory but
// for E5, which stands in the abstract.

// elerath is their group: 8 drives with single parity, Weibull lives and
// restores. Defects come every 9 259 h; scrub is their dwell, nil for ever.
func elerath(years float64, defects bool, scrub law.Time) *model.System {
	s := simtest.OneGroup(8, 1, law.Weibull{Shape: 1.12, Scale: 461386}, law.Weibull{Min: 6, Scale: 12, Shape: 2}, years*8760)
	if defects {
		s.LatentRate, s.Scrub = 1.0/9259, scrub
	}
	return s
}

// weekly is the scrub of the paper's base case.
func weekly() law.Time { return law.Weibull{Min: 6, Scale: 168, Shape: 3} }

// overTextbook is what a thousand groups lose, as a multiple of what the
// textbook's mean time to data loss has them lose.
func overTextbook(events simulated, years float64) simulated {
	book := exact.Textbook{Drives: 8, Tolerance: 1, MTTF: 461386, MTTR: 12, DegradedFactor: 1}
	return events.times(1 / (book.FailureLossPerHour() * years * 8760))
}

// E2: no latent defects. The paper's 0.277 double failures of 1 000 groups in 10
// years (E1) are the textbook's; with the real laws it is somewhat less, because
// few drives are old yet although a restore takes 16.6 h in the mean, not 12. An
// independent plain simulation of the same rules had 0.17 to 0.26, of few events
// each. Sharper: drives in their places are renewal processes that hardly touch
// each other, so 8·7·E[τ]·∫m² falls due for a renewal density m. Integrated
// numerically by scipy 1.10.1 and numpy 1.24.2 that is 0.25556, and 0.014956
// within the first year. Left out is that restores delay renewals and that a
// drive may fail in its neighbour's restore: both of order restore ÷ life, 1e-3
// with room to spare.
func TestEngineOfElerath2007WithoutDefects(t *testing.T) {
	for i, c := range []struct{ years, want float64 }{{1, 0.014956}, {10, 0.255564}} {
		events := lives(t, elerath(c.years, false, nil), 33000, uint64(70+i))(model.LossEvents)
		got := events.times(1000)
		agrees(t, "E2, double failures in 1 000 groups", got, c.want, 1e-3*c.want)
		if c.years == 10 && !(got.value > 0.17 && got.value < 0.26) {
			t.Errorf("E2: %.4g in 10 years, an independent simulation had 0.17 to 0.26", got.value)
		}
		t.Logf("E2: %.3f times the textbook's in %g years", overTextbook(events, c.years).value, c.years)
	}
}

// E3: with defects and a scrub of 168 h, the first year has some 360 times the
// losses of the textbook. An independent plain simulation of the same rules had
// 371 ± 6. The paper is read off a curve of simulated groups, so its "about" is
// taken as a tenth.
//
// E4: without any scrub, 1 000 groups have over 1 200 losses in 10 years (a group
// may have several), taken to a hundredth; independently simulated, 1 204 ± 3,
// and 138 ± 1 with the scrub.
func TestEngineOfElerath2007WithDefects(t *testing.T) {
	for i, c := range []struct {
		id          string
		years       float64
		scrub       law.Time
		independent simulated
		ratio       bool
		paper, half float64 // 0: the paper gives none
	}{
		{"E3, first year, weekly scrub: multiple of the textbook", 1, weekly(), simulated{371, 6}, true, 360, 36},
		{"E4, incidents of 1 000 groups in 10 years, never scrubbed", 10, nil, simulated{1204, 3}, false, 1200, 12},
		{"E4, incidents of 1 000 groups in 10 years, weekly scrub", 10, weekly(), simulated{138, 1}, false, 0, 0},
	} {
		events := lives(t, elerath(c.years, true, c.scrub), 33000, uint64(80+i))(model.Incidents)
		got := events.times(1000)
		if c.ratio {
			got = overTextbook(events, c.years)
		}
		agrees(t, c.id, got, c.independent.value, withinErrors*c.independent.se)
		if c.paper > 0 {
			agrees(t, c.id+" (paper)", got, c.paper, c.half)
		}
		t.Logf("%s: %.1f times the textbook", c.id, overTextbook(events, c.years).value)
	}
}

// E3 from another side: in the first year the drives of a group fail at 8 times
// the renewal density, and each failure meets defects on 7 drives: 1 − exp(−7 ×
// defects present), that number being ∫ of the survival of a dwell since time
// zero, at 1/9 259 h. Integrated by scipy 1.10.1 that is 0.0104347 incidents, and
// 0.0000150 double failures (E2) are to be added. Left out is that a rebuild clears
// defects, which the next failure misses if it comes within the 156 h of a dwell:
// 8 drives × 156 h ÷ 460 000 h, 0.003 at most.
func TestDefectsMetInTheFirstYear(t *testing.T) {
	const want = 0.0104347 + 0.0000150
	events := lives(t, elerath(1, true, weekly()), 130000, 90)(model.Incidents)
	agrees(t, "incidents of a group in the first year", events, want, 0.003*want)
	if thorough.Asked() && 0.003*want+withinErrors*events.se > 0.005*want {
		t.Errorf("± %.2g does not tell defects that build up from defects that are there at once", events.se)
	}
}

// E5: over the settings studied, the paper's model has 2 to 1 500 times the
// losses of the textbook. Which settings are the ends is not in the abstract. With
// scrubs of 12 h to 336 h the multiple lies inside; without defects it lies below,
// at 0.9. Never scrubbed lies above: the paper's own 1 200 incidents over its own
// 0.277 are 4 300 times, so that case cannot be one of the range.
func TestEngineOfElerath2007Range(t *testing.T) {
	for i, c := range []struct {
		name        string
		years       float64
		defects     bool
		scrub       law.Time
		least, most float64
	}{
		{"no defects", 10, false, nil, 0, 2},
		{"scrub 12 h, first year", 1, true, law.Weibull{Min: 6, Scale: 12, Shape: 3}, 2, 1500},
		{"scrub 48 h, first year", 1, true, law.Weibull{Min: 6, Scale: 48, Shape: 3}, 2, 1500},
		{"scrub 168 h, 10 years", 10, true, weekly(), 2, 1500},
		{"scrub 336 h, 10 years", 10, true, law.Weibull{Min: 6, Scale: 336, Shape: 3}, 2, 1500},
		{"never scrubbed", 10, true, nil, 1500, 5000},
	} {
		got := overTextbook(lives(t, elerath(c.years, c.defects, c.scrub), 6600, uint64(100+i))(model.Incidents), c.years)
		t.Logf("E5, %-24s %.4g ± %.2g times the textbook", c.name, got.value, got.se)
		if !(got.value-withinErrors*got.se > c.least && got.value+withinErrors*got.se < c.most) {
			t.Errorf("E5, %s: %.4g ± %.2g times the textbook, not within %g to %g", c.name, got.value, got.se, c.least, c.most)
		}
	}
}
