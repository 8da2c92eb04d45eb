package study

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim"
	"arrayodds/sim/doubt"
	"arrayodds/sim/model"
)

const (
	// doubtSettings is the settings of each replicate, 64 in all; fewer, and at least
	// fewestSettings, where the choices are costly to simulate.
	doubtSettings  = 8
	fewestSettings = 2
	// fewTrials is the trials at each of a choice of which they tell the loss chance to
	// fewServe or better, and moreTrials of others: what is lacking is known as noise and
	// taken out, and more settings serve better than more trials.
	fewTrials, moreTrials = 16, 32
	fewServe              = 0.1
	// The work of all settings is as much as the comparison took, or about a second
	// where that is more, or some ten where it is less.
	leastDoubtWork int64 = 1e7
	mostDoubtWork  int64 = 1e8
)

// doubt fills in what the doubt about the inputs leaves of a comparison that is done.
func (a Request) doubt(ctx context.Context, into *Comparison) error {
	d := newDoubter(a, into)
	if err := d.bearing(); err != nil {
		return err
	}
	into.Doubt = new(Doubt)
	some := false
	for k, in := range d.all {
		said := DoubtfulInput{in.Axis.Path, in.Axis.Called(), in.Low.Text, in.Likely.Text, in.High.Text, in.Given, in.Range}
		switch {
		case slices.Contains(d.bears[k], true):
			d.place = append(d.place, len(into.Doubt.Inputs))
			into.Doubt.Inputs = append(into.Doubt.Inputs, said)
			some = true
		default:
			d.place = append(d.place, -1)
			if in.Given && !d.costs[k] {
				into.Doubt.Idle = append(into.Doubt.Idle, said)
			}
		}
	}
	d.plan(some)
	if err := d.simulate(ctx); err != nil {
		return err
	}
	d.conclude()
	return nil
}

// doubter works out a [Doubt].
type doubter struct {
	Request
	into    *Comparison
	builder model.Builder
	entered map[int]*model.System // of choices as entered, once they were asked for
	all     []axis.Input
	bears   [][]bool // of each input and choice: the choice depends on it
	costs   []bool   // of each input: some choice's cost depends on it
	place   []int    // of each input, in Doubt.Inputs; −1 where it bears on nothing
	drawn   int      // settings of each replicate; 0: nothing is drawn
	work    int64    // that one point may take
	why     string   // there are fewer settings, or none
	whatIfs []whatIf // hazards that were left out, tried by the first replicate
	designs [doubt.Replicates][][]float64
	inputs  doubt.Inputs
	loss    []doubt.Sample // of each choice
	missing []doubt.Sample
}

// newDoubter returns a doubter of a comparison whose choices were simulated.
func newDoubter(a Request, into *Comparison) *doubter {
	d := &doubter{Request: a, into: into, entered: map[int]*model.System{}}
	for _, in := range a.Source.Inputs() {
		if in.Doubtful {
			d.all = append(d.all, in)
		}
	}
	return d
}

// bearing finds which inputs bear on which choices: at one end of its range the choice is
// another system than as entered.
func (d *doubter) bearing() error {
	var settings [][]axis.Setting
	for _, in := range d.all {
		settings = append(settings, atEnds(in)...)
	}
	files, err := readings(d.Source, settings)
	if err != nil {
		return err
	}
	own := d.Source.File()
	for k := range d.all {
		bears, costs := make([]bool, len(d.Choices)), false
		for i, c := range d.Choices {
			for _, f := range files[2*k : 2*k+2] {
				other, err := d.another(f, c)
				if err != nil {
					return err
				}
				bears[i] = bears[i] || other
				costs = costs || moneyOf(f.Site, f.Site.Choices[c]) != moneyOf(own.Site, own.Site.Choices[c])
			}
		}
		d.bears, d.costs = append(d.bears, bears), append(d.costs, costs)
	}
	return nil
}

// someBear reports whether any input bears on any choice, without looking for all.
func (d *doubter) someBear() (bool, error) {
	for _, in := range d.all {
		files, err := readings(d.Source, atEnds(in))
		if err != nil {
			return false, err
		}
		for _, c := range d.Choices {
			for _, f := range files {
				if other, err := d.another(f, c); other || err != nil {
					return other, err
				}
			}
		}
	}
	return false, nil
}

// atEnds returns the settings of the two ends of an input's range.
func atEnds(in axis.Input) [][]axis.Setting {
	return [][]axis.Setting{{in.Axis.Set(in.Low)}, {in.Axis.Set(in.High)}}
}

// another reports whether a choice is another system in a reading than as entered.
func (d *doubter) another(f *site.File, c int) (bool, error) {
	was, known := d.entered[c]
	if !known {
		own := d.Source.File()
		var err error
		if was, err = d.systemThatCounts(own.Site, own.Site.Choices[c]); err != nil {
			return false, err
		}
		d.entered[c] = was
	}
	sys, err := d.systemThatCounts(f.Site, f.Site.Choices[c])
	return err != nil || !reflect.DeepEqual(sys, was), nil
}

// moneyOf returns what a choice costs but for the drives that fail, as words in which NaN
// equals itself.
func moneyOf(s array.Site, c array.Choice) string {
	z, err := s.Size(c)
	if err != nil {
		return ""
	}
	return fmt.Sprint(z.Purchase, s.EnergyCost(z), c.Drive.Price)
}

// systemThatCounts returns the system of a choice without what it never uses.
func (d *doubter) systemThatCounts(s array.Site, c array.Choice) (*model.System, error) {
	sys, err := d.builder.System(s, c)
	if err == nil && sys.Spares == 0 {
		sys.Repair.Restock = model.Wait{}
	}
	return sys, err
}

// settings returns how many settings of a replicate the work allows, and the work that
// one point may take; 0 settings where there is nothing to draw, or it would take too
// long, and why then.
func (d *doubter) settings() (settings int, point int64, why string) {
	took, each := int64(0), int64(0)
	for _, o := range d.into.Outcomes {
		if r := o.Result; r.Trials > 0 {
			took += r.Work
			work := r.Work * int64(d.trials(1, r)) / int64(r.Trials)
			each += work
			point = max(point, 20*work)
		}
	}
	if each == 0 {
		return 0, 0, ""
	}
	budget := min(max(took, leastDoubtWork), mostDoubtWork)
	settings = int(min(doubtSettings, budget/(doubt.Replicates*each)))
	switch {
	case settings < fewestSettings:
		return 0, 0, "What is not known of the inputs was not worked out: these choices take long to simulate, and it would have taken much longer than the comparison itself."
	case settings < doubtSettings:
		why = fmt.Sprintf("What is not known of the inputs rests on %d settings of them and not on %d, as these choices take long to simulate.", doubt.Replicates*settings, doubt.Replicates*doubtSettings)
	}
	return settings, point + 1e5, why
}

// trials returns the trials at each setting of a replicate of a choice with such a result,
// taking single lives to tell as much there as they did in the result.
func (d *doubter) trials(replicate int, of sim.Result) int {
	variance := float64(of.Trials)/of.EffectiveSamples - 1 // of a life's loss chance, as a share of its square
	triesMore := replicate == 0 && len(d.whatIfs) > 0      // what was left out, which no other does
	if variance <= fewServe*fewServe*fewTrials && !triesMore {
		return fewTrials
	}
	return moreTrials
}

// plan fills in what is to be simulated, which depends on the results of the choices as
// entered. some says that an input bears on some choice.
func (d *doubter) plan(some bool) {
	d.drawn, d.work, d.why = d.settings()
	if d.drawn == 0 {
		return
	}
	d.whatIfs = d.whatIfsTried()
	if !some {
		d.drawn = 0 // nothing is drawn, and what was left out is tried all the same
		return
	}
	d.designs = doubt.Design(d.Options.Seed, len(d.all), d.drawn)
}

// simulate runs every choice at every setting, or takes what is known of it already.
func (d *doubter) simulate(ctx context.Context) error {
	out := d.into.Doubt
	out.Why = d.why
	d.loss, d.missing = make([]doubt.Sample, len(d.Choices)), make([]doubt.Sample, len(d.Choices))
	if d.drawn > 0 {
		out.Settings = doubt.Replicates * d.drawn
		d.placed()
	}
	for r := range doubt.Replicates {
		if d.idle(r) {
			break
		}
		found, err := d.found(ctx, r)
		if err != nil {
			return err
		}
		d.take(r, found)
	}
	for _, w := range d.whatIfs {
		w.Matters = w.matters(d.into.Outcomes)
		out.LeftOut = append(out.LeftOut, w.LeftOut)
	}
	return nil
}

// take takes what a replicate found.
func (d *doubter) take(r int, found Replicate) {
	for i, c := range found.Choices {
		loss, missing := &d.loss[i], &d.missing[i]
		loss.Likely[r], loss.Chance[r], loss.Noise[r] = c.Loss.Likely, c.Loss.Chance, c.Loss.Noise
		missing.Likely[r], missing.Chance[r], missing.Noise[r] = c.Missing.Likely, c.Missing.Chance, c.Missing.Noise
	}
	for k, w := range found.LeftOut {
		d.whatIfs[k].Chance, d.whatIfs[k].Factor = w.Chance, w.Factor
	}
}

// conclude fills in what the samples say.
func (d *doubter) conclude() {
	out := d.into
	n := len(out.Outcomes)
	for i := range out.Outcomes {
		o := &out.Outcomes[i]
		if !o.Simulated() {
			continue
		}
		c := &ChoiceDoubt{LossInAll: o.Result.LossChance, MissingInAll: o.Result.MissingClip, GoalMet: math.NaN(), MissingGoalMet: math.NaN()}
		c.Low, c.Median, c.High = o.Result.LossChance.Value, o.Result.LossChance.Value, o.Result.LossChance.Value
		if out.Doubt.Settings > 0 {
			inputs, which := d.bearingOn(i)
			c.LossInAll = d.loss[i].Mean(o.Result.LossChance, inputs)
			if o.Result.HasCameras {
				c.MissingInAll = d.missing[i].Mean(o.Result.MissingClip, inputs)
			}
			q := d.loss[i].Quantiles(o.Result.LossChance.Value, 0.05, 0.5, 0.95)
			c.Low, c.Median, c.High = q[0], q[1], q[2]
			c.Moves = d.moves(i, inputs, which)
		}
		if g := out.Site.Goal; g != nil {
			c.GoalMet = met(&d.loss[i], o.Result.LossChance.Value, g.LossChance)
			if g.MissingClip > 0 && o.Result.HasCameras {
				c.MissingGoalMet = met(&d.missing[i], o.Result.MissingClip.Value, g.MissingClip)
			}
		}
		o.Doubt = c
	}
	out.Doubt.Safer = make([][]float64, n)
	for i := range n {
		out.Doubt.Safer[i] = make([]float64, n)
		for j := range n {
			out.Doubt.Safer[i][j] = math.NaN()
			if i != j && out.Doubt.Settings > 0 {
				out.Doubt.Safer[i][j] = doubt.Safer(&d.loss[i], &d.loss[j])
			}
		}
	}
}

// met returns the share of the settings at which a chance is at most so much; without
// settings whether it is so as entered, 0 or 1.
func met(s *doubt.Sample, entered, most float64) float64 {
	if share := s.Share(entered, most); !math.IsNaN(share) {
		return share
	}
	if entered <= most {
		return 1
	}
	return 0
}

// moves returns how far each input that bears on a choice moves it.
func (d *doubter) moves(i int, inputs *doubt.Inputs, bearing []int) (all []Move) {
	for n, factor := range d.loss[i].Effects(inputs) {
		if factor > 0 {
			all = append(all, Move{d.place[bearing[n]], factor})
		}
	}
	slices.SortStableFunc(all, func(x, y Move) int { return -cmp.Compare(x.Strength(), y.Strength()) })
	return all
}

// lawPoints is the quantiles at which the laws of inputs are taken.
const lawPoints = 512

// placed fills in where inputs are at the settings, and their laws.
func (d *doubter) placed() {
	for _, in := range d.all {
		low, high := coordinate(in, in.Low, 0), coordinate(in, in.High, 1)
		place := func(u float64) float64 { return (coordinate(in, in.At(u), u) - low) / (high - low) }
		var law []float64
		for j := range lawPoints {
			law = append(law, place((float64(j)+0.5)/lawPoints))
		}
		d.inputs.Laws = append(d.inputs.Laws, law)
		for r, design := range d.designs {
			if d.inputs.Places[r] == nil {
				d.inputs.Places[r] = make([][]float64, len(design))
			}
			for k, u := range design {
				d.inputs.Places[r][k] = append(d.inputs.Places[r][k], place(u[len(d.inputs.Laws)-1]))
			}
		}
	}
}

// bearingOn returns the inputs that bear on a choice, and their places.
func (d *doubter) bearingOn(i int) (inputs *doubt.Inputs, which []int) {
	inputs = new(doubt.Inputs)
	for k := range d.all {
		if d.bears[k][i] {
			which = append(which, k)
			inputs.Laws = append(inputs.Laws, d.inputs.Laws[k])
		}
	}
	for r, places := range d.inputs.Places {
		for _, all := range places {
			row := make([]float64, len(which))
			for n, k := range which {
				row[n] = all[k]
			}
			inputs.Places[r] = append(inputs.Places[r], row)
		}
	}
	return inputs, which
}
