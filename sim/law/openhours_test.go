package law

import (
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/array/unit"
)

// week lists spans as pairs of hours since Monday 00:00.
func week(hours ...float64) (w unit.Week) {
	for i := 0; i < len(hours); i += 2 {
		w = append(w, unit.Span{From: hours[i], To: hours[i+1]})
	}
	return w
}

var weeks = []struct {
	name string
	week unit.Week
}{
	{"office", week(8, 17, 32, 41, 56, 65, 80, 89, 104, 113)},
	{"long days, short Friday", week(8, 18, 32, 42, 56, 66, 80, 90, 104, 110)},
	{"odd minutes", week(500.0/60, 1011.0/60, 1940.0/60, 2451.0/60, 3380.0/60, 3891.0/60)},
	{"nights, over the end of the week", week(0, 6, 22, 30, 46, 54, 166, 168)},
	{"always", week(0, 168)},
	{"one minute a week", week(100, 100+1.0/60)},
}

const minutesInWeek = WeekHours * 60

// opened tells of each step of the week, so many an hour, whether it is open.
func opened(w unit.Week, perHour float64) []bool {
	open := make([]bool, int(WeekHours*perHour))
	for _, s := range w {
		for i := int(math.Round(s.From * perHour)); i < int(math.Round(s.To*perHour)); i++ {
			open[i] = true
		}
	}
	return open
}

// stepped walks step by step until so many open ones have passed.
func stepped(within int, open []bool, begin int) (steps int) {
	for at := begin; within > 0; steps++ {
		if open[at] {
			within--
		}
		if at++; at == len(open) {
			at = 0
		}
	}
	return steps
}

func TestOpenHoursFrom(t *testing.T) {
	for _, c := range weeks {
		t.Run(c.name, func(t *testing.T) {
			all := int(math.Round(c.week.Open() * 60))
			open := opened(c.week, 60)
			// A minute, part of a day, whole days, just a week, a little more
			// and less, several weeks.
			for _, within := range []int{0, 1, 100, 240, 480, 540, 1080, all - 1, all, all + 1, 2 * all, 3*all + 7} {
				if within < 0 || within > 3*all+7 {
					continue
				}
				o := OpenHours{Within: float64(within) / 60, Week: c.week}
				// 97 minutes, since a week is no multiple of it; and every
				// opening and closing.
				begins := []int{0, 1, minutesInWeek - 1}
				for m := 0; m < minutesInWeek; m += 97 {
					begins = append(begins, m)
				}
				for _, s := range c.week {
					begins = append(begins, int(math.Round(s.From*60)), int(math.Round(s.To*60))%minutesInWeek)
				}
				for _, begin := range begins {
					got := o.From(float64(begin) / 60)
					want := float64(stepped(within, open, begin)) / 60
					if math.Abs(got-want) > 1e-8 {
						t.Fatalf("%d open minutes from minute %d take %.9f h, want %.9f", within, begin, got, want)
					}
				}
			}
		})
	}
}

// A wait of just one working day that begins outside of it ends at the closing
// hour of the next, whatever the fractions of the hour do to the sums.
func TestOpenHoursWholeDay(t *testing.T) {
	o := OpenHours{Within: 9, Week: weeks[0].week}
	for i := range 10_000 {
		hour := 17 + float64(i)*15/10_000 // closed from Monday 17:00 to Tuesday 08:00
		if got, want := o.From(hour), 41-hour; math.Abs(got-want) > 1e-8 {
			t.Fatalf("from hour %v it takes %v, want %v", hour, got, want)
		}
	}
	// And just one or three weeks of them.
	for _, n := range []float64{1, 3} {
		o.Within = 45 * n
		if got, want := o.From(120), 113+WeekHours*n-120; math.Abs(got-want) > 1e-8 {
			t.Errorf("%g weeks from Saturday take %v, want %v", n, got, want)
		}
	}
}

// By hand, as people count: four hours from Friday 15:00 end on Monday 10:00.
func TestOpenHoursByHand(t *testing.T) {
	office := weeks[0].week
	for _, c := range []struct{ within, hour, want float64 }{
		{4, 4*24 + 15, 3*24 - 5}, // Friday 15:00, to Monday 10:00
		{4, 5*24 + 12, 48},       // Saturday noon, to Monday 12:00
		{8, 9, 8},                // Monday 09:00, to 17:00
		{8, 9.5, 23},             // Monday 09:30, 7.5 h today, to Tuesday 08:30
		{45, 9, 168},             // a full week, to the same hour
	} {
		if got := (OpenHours{c.within, office}).From(c.hour); math.Abs(got-c.want) > 1e-8 {
			t.Errorf("%g open hours from hour %g take %g, want %g", c.within, c.hour, got, c.want)
		}
	}
}

// The mean over the middles of all minutes, stepped by half minutes. Inside of a
// minute the length is linear in the hour at which it begins (it jumps only
// between two), so this is the exact mean over all hours.
func TestOpenHoursMean(t *testing.T) {
	for _, c := range weeks {
		open := opened(c.week, 120)
		all := int(math.Round(c.week.Open() * 60))
		for k, within := range []int{1, 240, 540, all * 10 / 9} {
			if !thorough.Part(k, 2) {
				continue
			}
			if within > all*10/9 {
				continue
			}
			sum := 0
			for m := range minutesInWeek {
				sum += stepped(2*within, open, 2*m+1)
			}
			want := float64(sum) / 120 / minutesInWeek
			o := OpenHours{Within: float64(within) / 60, Week: c.week}
			near(t, c.name+": Mean", o.Mean(), want, 1e-9)
		}
	}
}
