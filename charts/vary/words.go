package vary

import (
	"fmt"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// lead says what was moved, and what the site file has.
func (v sweep) lead() string {
	text := ""
	for i, in := range v.Inputs {
		if i > 0 {
			text += " "
		}
		text += movedWords(in)
	}
	text += " All else is as in the site file."
	if len(v.Inputs) == 2 {
		return text + fmt.Sprintf(" %s of values for %s.", figure.Capital(figure.Count(len(v.Inputs[0].Texts)*len(v.Inputs[1].Texts), "pair", "pairs")), figure.Count(len(v.Curves), "choice", "choices"))
	}
	return text + fmt.Sprintf(" %s for %s.", figure.Capital(figure.Count(len(v.Inputs[0].Texts), "value", "values")), figure.Count(len(v.Curves), "choice", "choices"))
}

// called returns what an input is called, or else its path.
func called(in study.Input) string { return page.Called(in.Called, in.Path) }

// spoken returns the input as a sentence has it.
func spoken(in study.Input) string {
	if in.Called == "" {
		return label.Short(in.Path)
	}
	return "the " + label.Short(in.Called)
}

// movedWords says from where to where an input goes.
func movedWords(in study.Input) string {
	first, last := label.OneLine(in.Texts[0]), label.OneLine(in.Texts[len(in.Texts)-1])
	name := label.OneLine(in.Path)
	if in.Called != "" {
		name = fmt.Sprintf("The %s (%s)", label.OneLine(in.Called), name)
	}
	text := fmt.Sprintf("%s: from %s to %s", name, first, last)
	if in.Values == nil {
		text = fmt.Sprintf("%s: %s", name, figure.List(page.OneLines(in.Texts)))
	}
	switch own := label.OneLine(in.OwnText); {
	case own == "":
	case strings.HasPrefix(own, "differs from "):
		text += "; in the site file it " + own
	case strings.HasPrefix(own, "not given: "):
		text += "; the site file leaves it out: " + strings.TrimPrefix(own, "not given: ")
	default:
		text += "; the site file has " + own
	}
	return text + "."
}

// points returns the short answer.
func (v sweep) points() []string {
	if len(v.Inputs) == 2 {
		return append(v.ranges(), v.againstWords()...)
	}
	in := v.Inputs[0]
	last := len(in.Texts) - 1
	var out []string
	add := func(text string) {
		if text != "" {
			out = append(out, text)
		}
	}
	at := func(i int) string { return "At " + label.OneLine(in.Texts[i]) }
	own := v.safest("As the site file has it", func(c study.Curve) (estimate.Estimate, bool) {
		z, err := v.Site.Size(c.Choice)
		return c.Own, err != nil || z.Meets
	})
	of := func(i int) string {
		return v.safest(at(i), func(c study.Curve) (estimate.Estimate, bool) {
			p := c.Points[i]
			if p.Absent != "" {
				return estimate.Estimate{Value: -1}, false
			}
			return p.Loss, p.Meets
		})
	}
	switch {
	case in.Values != nil && last > 0:
		add(of(0))
		add(own)
		add(of(last))
	case last < figure.MostNoted:
		for i := range in.Texts {
			add(of(i))
		}
		add(own)
	default:
		add(own)
	}
	return append(out, v.turns()...)
}

// safest says which choice is safest where of gives the chances and whether the
// demand is met; those that do not meet it count only where none does.
func (v sweep) safest(where string, of func(study.Curve) (estimate.Estimate, bool)) string {
	marks := v.marks()
	var can, meet []int
	chances := make([]estimate.Estimate, len(v.Curves))
	for i, c := range v.Curves {
		e, meets := of(c)
		if chances[i] = e; !draw.Known(e) {
			continue
		}
		can = append(can, i)
		if meets {
			meet = append(meet, i)
		}
	}
	among := ""
	switch {
	case len(can) == 0:
		return where + " there are no figures."
	case len(meet) == 0:
		among = " (none holds the footage)"
	case len(meet) < len(can):
		among, can = " of those that hold the footage", meet
	}
	best := can[0]
	for _, i := range can {
		if chances[i].Value < chances[best].Value {
			best = i
		}
	}
	chance := figure.Odds(chances[best])
	if chances[best].Value == 0 && chances[best].High == 0 {
		chance = "no loss was found"
	}
	if len(v.Curves) == 1 {
		return fmt.Sprintf("%s the chance of a loss is %s%s.", where, chance, among)
	}
	text := fmt.Sprintf("%s the safest%s is %s: %s.", where, among, marks[best].Brief(), chance)
	var tied []string
	for _, i := range can {
		if i != best && chances[i].Low <= chances[best].High {
			tied = append(tied, marks[i].Brief())
		}
	}
	if tied != nil {
		text += fmt.Sprintf(" Not beyond doubt: the interval of %s reaches as low.", figure.Some(tied))
	}
	return text
}

// mostTurns bounds the sentences about pairs that change places.
const mostTurns = 4

// turns says which choices change places beyond doubt, and between which values.
func (v sweep) turns() []string {
	if len(v.Curves) < 2 || len(v.Inputs[0].Texts) < 2 {
		return nil
	}
	var out []string
	marks, more := v.marks(), 0
	for a := range v.Curves {
		for b := a + 1; b < len(v.Curves); b++ {
			before, after, again := v.turn(a, b)
			if after < 0 {
				continue
			}
			if len(out) == mostTurns {
				more++
				continue
			}
			safer, other := marks[a].Brief(), marks[b].Brief()
			if v.order(a, b, before) > 0 {
				safer, other = other, safer
			}
			text := fmt.Sprintf("The order changes beyond doubt: at %s, %s is safer than %s; at %s it is the other way round.",
				label.OneLine(v.Inputs[0].Texts[before]), safer, other, label.OneLine(v.Inputs[0].Texts[after]))
			if again {
				text += " Further along it changes again."
			}
			out = append(out, text)
		}
	}
	if more > 0 {
		out = append(out, fmt.Sprintf("So it does for %s more.", figure.Count(more, "pair of choices", "pairs of choices")))
	}
	if out == nil {
		out = append(out, "No two choices change places beyond doubt over these values.")
	}
	return out
}

// turn returns the last value before, and the first after, the order of two choices
// changes; after is -1 where it does not. again reports whether it does so once more.
func (v sweep) turn(a, b int) (before, after int, again bool) {
	before, after = -1, -1
	sign := 0
	for i := range v.Inputs[0].Texts {
		now := v.order(a, b, i)
		switch {
		case now == 0:
		case sign == 0 || now == sign && after < 0:
			sign, before = now, i
		case now == -sign && after < 0:
			after = i
		case after >= 0 && now == sign:
			again = true
		}
	}
	return before, after, again
}

// order returns -1 where a is safer than b beyond doubt at a value, 1 where b is, and
// else 0. Where one of them is the choice held against, the ratio decides, whose
// interval is the narrower.
func (v sweep) order(a, b, at int) int {
	p, q := v.Curves[a].Points[at], v.Curves[b].Points[at]
	if p.Absent != "" || q.Absent != "" {
		return 0
	}
	below := func(e estimate.Estimate) int {
		switch {
		case draw.Known(e) && e.High < 1:
			return -1
		case draw.Known(e) && e.Low > 1:
			return 1
		}
		return 0
	}
	switch held := v.against(); {
	case held >= 0 && held == b && draw.Known(p.Against):
		return below(p.Against)
	case held >= 0 && held == a && draw.Known(q.Against):
		return -below(q.Against)
	}
	switch {
	case !draw.Known(p.Loss) || !draw.Known(q.Loss):
		return 0
	case p.Loss.High < q.Loss.Low:
		return -1
	case q.Loss.High < p.Loss.Low:
		return 1
	}
	return 0
}
