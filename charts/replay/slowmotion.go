package replay

import (
	"encoding/json"
	"fmt"
	"html/template"
	"math"

	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/sim/figure"
	"arrayodds/sim/history"
	"arrayodds/sim/trace"
)

// motion is a life as the player of the page steps through it: it picks and shows, and
// works nothing out.
type motion struct {
	Number int           `json:"number"`
	Groups []motionGroup `json:"groups"`
	Events []motionEvent `json:"events"`
	Marks  []motionMark  `json:"marks"`
}

// motionGroup is the bays of a group that are shown.
type motionGroup struct {
	Name string   `json:"name"` // empty: there is only one, or none to speak of
	Bays []string `json:"bays"`
}

// motionEvent is the moment after an event.
type motionEvent struct {
	When   string     `json:"when"`
	What   string     `json:"what"`
	Later  string     `json:"later"` // than the event told before; empty for the first
	Held   string     `json:"held"`  // footage that there is; empty without cameras
	Loss   bool       `json:"loss"`
	States string     `json:"states"` // of all bays that are shown, a letter each
	At     []*float64 `json:"at"`     // on the scale of each drawing of Marks; null: beyond it
}

// motionMark is a drawing with an upright line at the moment.
type motionMark struct {
	Drawing string `json:"drawing"`
	Series  int    `json:"series"` // place of that line
}

// stateLetters are those of [motionEvent], by state.
var stateLetters = map[trace.State]byte{trace.Running: 'r', trace.Waiting: 'w', trace.Queued: 'q', trace.Rebuilding: 'b', trace.Down: 'd'}

// letterKey is a state with its letter, its drawing and its words.
type letterKey struct {
	Letter  string
	Brief   string // what a bay is said to do, where there is little room
	Text    string
	Drawing template.HTML
}

// letters returns all states in the order in which a drive goes through them.
func letters() []letterKey {
	brief := map[byte]string{'r': "runs", 'w': "waits", 'q': "queued", 'b': "rebuilt", 'd': "down"}
	var all []letterKey
	add := func(l stateLook) {
		letter := stateLetters[l.State]
		all = append(all, letterKey{string(letter), brief[letter], l.Text, stateDrawing(l.Form, l.Colour)})
	}
	add(stateLook{trace.Running, "running", runningColour, "running"})
	for _, l := range stateLooks {
		add(l)
	}
	return all
}

// motion returns the life event by event; false where nothing happens. Marks are the
// drawings in which the moment is marked, each with its stretch and scale.
func (t narrator) motion(marks []marked) (motion, bool) {
	m := motion{Number: t.Number}
	shown := t.rows(window{0, t.Horizon})
	var bays []int
	group := -1
	for b := range t.Bays {
		if _, ok := shown.row[b]; !ok {
			continue
		}
		if g := t.groupOf(b); len(m.Groups) == 0 || !t.alone() && g != group {
			name := ""
			if !t.alone() && t.groups() > 1 {
				name = t.group(g)
			}
			group = g
			m.Groups = append(m.Groups, motionGroup{Name: name})
		}
		last := &m.Groups[len(m.Groups)-1]
		last.Bays = append(last.Bays, t.bay(b))
		bays = append(bays, b)
	}
	for _, k := range marks {
		m.Marks = append(m.Marks, motionMark{k.id, k.series})
	}
	lines, kept, _ := t.told()
	last := -1
	for i, l := range lines {
		if !kept[i] {
			continue
		}
		e := motionEvent{When: l.When, What: l.What, Loss: l.Loss, States: t.statesAfter(i, bays)}
		if last >= 0 && l.At-lines[last].At > near {
			e.Later = lasting(l.At-lines[last].At) + " later"
		}
		last = i
		if held := t.heldAfter(i); !math.IsNaN(held) {
			e.Held = figure.Days(held) + " of footage held"
		}
		for _, k := range marks {
			e.At = append(e.At, k.place(l.At))
		}
		m.Events = append(m.Events, e)
	}
	return m, len(m.Events) > 0
}

// sameMoment returns the events of the moment of one, up to it and behind it: what comes
// behind has not happened yet, though no time lies between.
func (t narrator) sameMoment(place int) (upTo, behind []history.Event) {
	at := t.Events[place].At
	first, last := place, place
	for first > 0 && t.Events[first-1].At >= at-near {
		first--
	}
	for last+1 < len(t.Events) && t.Events[last+1].At <= at+near {
		last++
	}
	return t.Events[first : place+1], t.Events[place+1 : last+1]
}

// heldAfter returns how much footage there is after an event, in hours; NaN without
// cameras.
func (t narrator) heldAfter(place int) float64 {
	_, behind := t.sameMoment(place)
	before, after := t.heldAround(t.Events[place].At)
	for _, e := range behind {
		if e.Kind == history.LosesSet {
			return before
		}
	}
	return after
}

// statesAfter returns the letters of what some bays are in after an event.
func (t narrator) statesAfter(place int, bays []int) string {
	at := t.Events[place].At
	upTo, behind := t.sameMoment(place)
	failed, failsYet, lostYet := map[int]bool{}, map[int]bool{}, map[int]bool{}
	for _, e := range upTo {
		failed[e.Bay] = failed[e.Bay] || e.Kind == history.Fails
	}
	for _, e := range behind {
		failsYet[e.Bay] = failsYet[e.Bay] || e.Kind == history.Fails
		lostYet[e.Set] = lostYet[e.Set] || e.Kind == history.LosesSet
	}
	before, after := make(map[int]trace.State, len(bays)), make(map[int]trace.State, len(bays))
	for _, s := range t.Spans {
		if s.From < at-near && at-near <= s.To {
			before[s.Bay] = s.State
		}
		if s.From <= at+near && at+near < s.To {
			after[s.Bay] = s.State
		}
	}
	letters := make([]byte, len(bays))
	for i, b := range bays {
		state := after[b]
		switch lost := lostYet[t.groupOf(b)/max(1, t.GroupsPerSet)]; {
		case failsYet[b], lost && !failed[b]:
			state = before[b]
		case lost:
			state = trace.Waiting
		}
		letters[i] = stateLetters[state]
	}
	return string(letters)
}

// marked is a drawing of a life whose last series is an upright line at a moment.
type marked struct {
	id     string
	series int
	scale  timeScale
	window window
}

// marks returns the drawings of the life in which its player marks the moment.
func (t narrator) marks(drawn []draw.Chart) (all []marked) {
	life := window{0, t.Horizon}
	for _, c := range drawn {
		if c.Absent != "" {
			continue
		}
		k := marked{c.ID, lastSeries(c), timeScale{0, unit.HoursPerYear}, life}
		if up, ok := t.closeUp(); ok && c.ID == fmt.Sprintf("close-%d", t.Number) {
			k.scale, k.window = up.timeScale, up.window
		}
		all = append(all, k)
	}
	return all
}

// lastSeries returns the place of the last series of a drawing.
func lastSeries(c draw.Chart) int {
	var o struct{ Series []json.RawMessage }
	if json.Unmarshal(c.Options, &o) != nil {
		return 0
	}
	return len(o.Series) - 1
}

// place returns where a time lies on the drawing; nil where it lies beyond it.
func (k marked) place(at float64) *float64 {
	if !k.window.holds(at) {
		return nil
	}
	x := k.scale.at(at)
	return &x
}
