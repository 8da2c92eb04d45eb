package export

import (
	"encoding/json"
	"io"
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// formatNumber is the number that every JSON carries. It grows when a key changes meaning or
// goes.
const formatNumber = 1

// JSON writes the report as one indented object. Chances are 0 to 1, low and
// high the 95 % interval, relative_error the standard error ÷ the value.
func JSON(w io.Writer, r study.Comparison) error {
	out := document{
		Format:      formatNumber,
		Site:        r.Site.Name,
		Seed:        r.Seed,
		ServiceLife: number(r.Site.ServiceLife),
		Choices:     make([]choice, 0, len(r.Outcomes)),
	}
	cameras := len(r.Site.Cameras) > 0
	if cameras {
		d := r.Site.Demand()
		out.Demand = &demand{number(d.WriteRate), number(d.Needed)}
	}
	for _, o := range r.Outcomes {
		out.Choices = append(out.Choices, choiceOf(o, cameras))
	}
	return indented(w, out)
}

// indented writes an object as people can read it too.
func indented(w io.Writer, out any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}

type document struct {
	Format      int      `json:"format"`
	Site        string   `json:"site"`
	Seed        uint64   `json:"seed"`
	ServiceLife number   `json:"service_life_hours"`
	Demand      *demand  `json:"demand"`
	Choices     []choice `json:"choices"`
}

type demand struct {
	Write  number `json:"write_bytes_per_second"`
	Needed number `json:"needed_bytes"`
}

type choice struct {
	Label              string        `json:"label"`
	Usable             number        `json:"usable_bytes"`
	Meets              *bool         `json:"meets_demand"`
	Retention          *number       `json:"retention_days"`
	Loss               *jsonEstimate `json:"loss_chance"`
	LossRetention      *jsonEstimate `json:"loss_chance_retention"`
	AnyLoss            *jsonEstimate `json:"any_loss_chance"`
	MissingClip        *jsonEstimate `json:"missing_clip_chance"`
	LossEvents         *jsonEstimate `json:"loss_events_mean"`
	Incidents          *jsonEstimate `json:"incidents_mean"`
	UnreadableStripes  *jsonEstimate `json:"unreadable_stripes_mean"`
	CameraDaysLost     *jsonEstimate `json:"camera_days_lost_per_year"`
	MissingByCause     *causes       `json:"missing_by_cause"`
	LossCurve          []point       `json:"loss_curve"`
	Unprotected        *jsonEstimate `json:"unprotected_hours_per_year"`
	Rebuilds           *jsonEstimate `json:"rebuilds_per_year"`
	DrivesReplaced     *jsonEstimate `json:"drives_replaced_mean"`
	DrivesReplaced95   *number       `json:"drives_replaced_95"`
	Purchase           *number       `json:"purchase_cost"`
	ExactLossChance    *number       `json:"exact_loss_chance"`
	TextbookLossChance *number       `json:"textbook_loss_chance"`
	Trials             int           `json:"trials"`
	StoppedBy          string        `json:"stopped_by"`
}

type jsonEstimate struct {
	Value         number `json:"value"`
	Low           number `json:"low"`
	High          number `json:"high"`
	RelativeError number `json:"relative_error"`
}

type point struct {
	Years number `json:"years"`
	jsonEstimate
}

type causes struct {
	Drives     jsonEstimate `json:"drives"`
	Unreadable jsonEstimate `json:"unreadable"`
	Recorder   jsonEstimate `json:"recorder"`
	Shortfall  jsonEstimate `json:"shortfall"`
}

func choiceOf(o study.Outcome, cameras bool) choice {
	r := o.Result
	c := choice{
		Label:              o.Choice.Label,
		Usable:             number(o.Sizing.Usable),
		Loss:               some(r.LossChance),
		AnyLoss:            some(r.AnyLossChance),
		LossEvents:         some(r.LossEvents),
		Incidents:          some(r.Incidents),
		UnreadableStripes:  some(r.UnreadableStripes),
		LossCurve:          make([]point, 0, len(r.LossCurve)),
		Unprotected:        some(r.UnprotectedHoursPerYear),
		Rebuilds:           some(r.RebuildsPerYear),
		DrivesReplaced:     some(r.DrivesReplaced),
		DrivesReplaced95:   known(r.DrivesReplaced95.Value),
		Purchase:           known(o.Sizing.Purchase),
		ExactLossChance:    (*number)(r.Exact),
		TextbookLossChance: (*number)(r.Textbook),
		Trials:             r.Trials,
		StoppedBy:          string(r.StoppedBy),
	}
	for _, p := range r.LossCurve {
		c.LossCurve = append(c.LossCurve, point{number(p.Years), jsonEstimateOf(p.Estimate)})
	}
	if !cameras {
		return c
	}
	c.Meets = &o.Sizing.Meets
	c.Retention = known(o.Sizing.Retention / 24)
	c.LossRetention = some(r.LossChanceRetention)
	c.MissingClip = some(r.MissingClip)
	c.CameraDaysLost = some(r.CameraDaysLostPerYear)
	if !r.MissingClip.Known() {
		return c
	}
	c.MissingByCause = &causes{
		Drives:     jsonEstimateOf(r.MissingByCause.Drives),
		Unreadable: jsonEstimateOf(r.MissingByCause.Unreadable),
		Recorder:   jsonEstimateOf(r.MissingByCause.Recorder),
		Shortfall:  jsonEstimateOf(r.MissingByCause.Shortfall),
	}
	return c
}

func jsonEstimateOf(e estimate.Estimate) jsonEstimate {
	return jsonEstimate{number(e.Value), number(e.Low), number(e.High), number(e.RelativeError)}
}

// some is nil, written null, for an estimate that is not known.
func some(e estimate.Estimate) *jsonEstimate {
	if !e.Known() {
		return nil
	}
	out := jsonEstimateOf(e)
	return &out
}

// known is nil, written null, for a figure that the site does not give.
func known(x float64) *number {
	if math.IsNaN(x) {
		return nil
	}
	n := number(x)
	return &n
}

// number is written tidily, and not at all where it is not finite.
type number float64

func (n number) MarshalJSON() ([]byte, error) {
	x := float64(n)
	if err := finite(x); err != nil {
		return nil, err
	}
	return json.Marshal(tidy(x))
}
