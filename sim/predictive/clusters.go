package predictive

import (
	"math"
	"slices"
	"sort"

	"arrayodds/array"
	"arrayodds/sim/stream"
)

// What is looked at for failures that come together.
const (
	window          = 7     // days
	draws           = 2000  // of records of as many failures
	fewestTogether  = 2     // failures of a record
	mostTogether    = 300   // beyond which a record is not drawn any more
	stretch         = 30    // days within which the hazard of a drive is taken as constant
	mostDays        = 40000 // 110 years
	clustersStreams = 0x636c7573
)

// clusters returns the most failures within any seven days, and how rare so many are where
// each failure comes by itself; false where the fleets do not tell.
func clusters(fleets []array.Fleet, law array.Life) (most, failures int, p float64, ok bool) {
	var days []int
	first, last := math.MaxInt32, math.MinInt32
	for _, f := range fleets {
		if f.Ends == nil {
			return 0, 0, 0, false
		}
		for i, d := range f.Drives {
			end := int(f.Ends[i])
			first, last = min(first, end-daysOf(d)), max(last, end)
			if d.Failed {
				days = append(days, end)
			}
		}
	}
	if len(days) < fewestTogether || len(days) > mostTogether || last-first > mostDays {
		return 0, 0, 0, false
	}
	byDay := hazards(fleets, law, first, last)
	all := byDay[len(byDay)-1]
	if !(all > 0) {
		return 0, 0, 0, false
	}
	most = within(days)
	rnd := stream.New(clustersStreams, 0)
	reached := 0
	drawn := make([]int, len(days))
	for range draws {
		for i := range drawn {
			drawn[i] = sort.SearchFloat64s(byDay, rnd.Float64()*all)
		}
		if within(drawn) >= most {
			reached++
		}
	}
	return most, len(days), float64(reached+1) / (draws + 1), true
}

// daysOf returns the days on which a drive was watched, 1 or more.
func daysOf(d array.Observed) int { return max(1, int(math.Round((d.Hours-d.Entered)/24))) }

// hazards returns, from the first day to the last, the cumulative hazard of all drives that
// were watched by the end of each.
func hazards(fleets []array.Fleet, law array.Life, first, last int) []float64 {
	change := make([]float64, last-first+2) // of the hazard a day
	ages := byAge{law: law}
	for _, f := range fleets {
		for i, d := range f.Drives {
			n := daysOf(d)
			begin := int(f.Ends[i]) - n - first + 1 // the day after that of installation
			for from := 0; from < n; from += stretch {
				to := min(from+stretch, n)
				each := ages.expected(d.Entered, from, to) / float64(to-from)
				change[begin+from] += each
				change[begin+to] -= each
			}
		}
	}
	byDay := make([]float64, last-first+1)
	rate, sum := 0.0, 0.0
	for i := range byDay {
		rate += change[i]
		sum += math.Max(0, rate) // below 0 by rounding only
		byDay[i] = sum
	}
	return byDay
}

// byAge is a law with its cumulative hazards by whole days of age, each worked out once:
// a record can have 20 000 drives of forty years.
type byAge struct {
	law        array.Life
	cumulative []float64 // by days of age; below 0: not known yet
}

// expected returns the failures expected of a drive from one day after an age in hours to
// another.
func (b *byAge) expected(entered float64, from, to int) float64 {
	days := math.Round(entered / 24)
	if days*24 != entered { // no record by dates has such an age
		return b.law.Expected(entered+24*float64(from), entered+24*float64(to))
	}
	return b.by(int(days)+to) - b.by(int(days)+from)
}

func (b *byAge) by(day int) float64 {
	for len(b.cumulative) <= day {
		b.cumulative = append(b.cumulative, -1)
	}
	if b.cumulative[day] < 0 {
		b.cumulative[day] = b.law.Expected(0, 24*float64(day))
	}
	return b.cumulative[day]
}

// within returns the most of some days, which it sorts, that lie within a window.
func within(days []int) (most int) {
	slices.Sort(days)
	from := 0
	for to := range days {
		for days[to]-days[from] >= window {
			from++
		}
		most = max(most, to-from+1)
	}
	return most
}
