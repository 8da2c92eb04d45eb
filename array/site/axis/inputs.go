package axis

import (
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/toml"

	"gonum.org/v1/gonum/stat/distuv"
)

// Input is an input whose value is not certain, with the range to rank it by.
type Input struct {
	Axis *Axis // of two values, Low and High; numeric or not
	// Low, Likely and High are in the order of the site file, or as Range says.
	// Likely is what the file has: to set it changes nothing, save that of a record
	// it is the mean rate, known.
	Low, Likely, High Value
	Given             bool   // the range is the site file's
	Range             string // else how it was taken, in words: "half to twice, a guess"
	// Doubtful says that it belongs to the doubt that any site has: its range is given,
	// or a record's or a fit's, or one that the trade knows that it needs. What else has
	// a default range is worth ranking, and taken for certain.
	Doubtful bool

	law         distuv.Quantiler // of the value in the unit computed in; nil: that of its range
	least, most float64          // that the reader admits of such a value
	// What a fit leaves open of two parameters together: the place of the other one in
	// the list of inputs, counted from 1, and the correlation of the two.
	beside      int
	correlation float64
}

// Inputs lists the uncertain inputs: first those of which the site file gives a
// range, in its order; then, for what it gives no range of but bears on the risk of
// some choice, a default range (rules.go has them). Where a default range would
// leave the bounds of the reader, it ends there.
func (s *Source) Inputs() []Input {
	given := s.given()
	taken := map[string]bool{}
	for _, in := range given {
		taken[in.Axis.targets[0].keys[len(in.Axis.targets[0].keys)-1]] = true
	}
	var free []proposal
	for _, p := range s.proposals() {
		whole := p.target
		if p.known != nil { // in place of the whole record
			whole = s.target(p.steps[:3])
		}
		if p.updated || !slices.ContainsFunc(p.target.keys, func(key string) bool { return taken[key] }) && !s.rangedWithin(whole) {
			free = append(free, p)
		}
	}
	return append(given, s.ranged(free)...)
}

// rangedWithin reports whether the file gives a range of something inside of a
// target, or of what the target is part of the record of.
func (s *Source) rangedWithin(t target) bool {
	whole := t.keys[len(t.keys)-1]
	return slices.ContainsFunc(s.doc.Ranges, func(p *toml.UncertainRange) bool { return strings.HasPrefix(s.target(p.At).keys[len(p.At)-1], whole) })
}

// given returns the inputs with ranges of their own.
func (s *Source) given() (all []Input) {
	var targets []target
	var ranges []*toml.UncertainRange
	for _, p := range s.doc.Ranges {
		if !s.doc.Updated(p.At) { // else what the log made of it is in its place
			ranges = append(ranges, p)
			targets = append(targets, s.target(p.At))
		}
	}
	own := s.current(targets)
	for i, p := range ranges {
		a := &Axis{Path: p.Path, targets: targets[i : i+1], Resizes: targets[i].resizes()}
		likely := Value{Shown: math.NaN(), Text: strings.TrimSuffix(own[i].words, p.Ends()), node: p.Likely, made: true}
		low, high := p.ReadLow, p.ReadHigh
		if low.Numeric && high.Numeric && own[i].Node != nil && own[i].Read.Numeric {
			a.scale = scaleOf(low)
			a.numeric([]float64{low.Value, high.Value}, []string{spaced(low.Written), spaced(high.Written)})
			v := own[i].Read.Value
			likely = Value{Shown: a.scale.shown(v), Text: spaced(own[i].Read.Written), base: v, made: true}
		} else {
			for _, end := range []reached{{p.Low, low}, {p.High, high}} {
				text := end.Noted
				if text == "" {
					text = end.node.Brief()
				}
				a.Values = append(a.Values, Value{Shown: math.NaN(), Text: text, node: end.node, made: true})
			}
		}
		a.describe(own[i : i+1])
		all = append(all, Input{Axis: a, Low: a.Values[0], Likely: likely, High: a.Values[1], Given: true, Doubtful: true})
	}
	return all
}

// proposal is an input that could have a default range.
type proposal struct {
	target
	rule
}

// proposals lists the inputs that bear on the risk of some choice.
func (s *Source) proposals() (all []proposal) {
	f, d := s.File(), s.doc
	propose := func(r rule, at ...toml.Step) {
		for _, key := range strings.Split(r.key, ".") {
			at = append(at, toml.Step{Key: key})
		}
		all = append(all, proposal{s.target(at), r})
	}
	for i, model := range f.Site.Drives {
		if !slices.ContainsFunc(f.Site.Choices, func(c array.Choice) bool { return c.Drive.Label == model.Label }) {
			continue
		}
		at := []toml.Step{{Key: "drives"}, {Item: i}}
		own := lifeRules(model)
		for _, r := range own {
			propose(r, slices.Clone(at)...)
		}
		for _, r := range driveRules {
			if r.rate && s.rangedWithin(s.target(further(at, toml.Step{Key: "hazard_multiplier"}))) {
				continue // the multiplier's range says how far the rate is in doubt
			}
			here := further(at, toml.Step{Key: "life"})
			key, inLife := strings.CutPrefix(r.key, "life.")
			if r.rate && model.Log != nil {
				continue
			}
			if inLife && (own != nil && !(key == "shape" && shapeIsLeft(model)) || d.Root.Find(further(here, toml.Step{Key: key})) == nil) {
				continue
			}
			propose(r, slices.Clone(at)...)
		}
	}
	for _, r := range careRules {
		inherits := func(i int, c array.Choice) bool {
			return r.uses(c) && d.Root.Find([]toml.Step{{Key: "choices"}, {Item: i}, {Key: "care"}, {Key: r.key}}) == nil
		}
		for i, c := range f.Site.Choices {
			if inherits(i, c) {
				propose(r.rule, toml.Step{Key: "care"})
				break
			}
		}
		for i, c := range f.Site.Choices {
			if r.uses(c) && !inherits(i, c) {
				propose(r.rule, toml.Step{Key: "choices"}, toml.Step{Item: i}, toml.Step{Key: "care"})
			}
		}
	}
	for _, r := range hazardRules {
		propose(r, toml.Step{Key: "hazards"})
	}
	return all
}

// shapeIsLeft reports whether nothing is said of how uncertain the shape is of a law whose
// rate the site's log updated.
func shapeIsLeft(model array.Drive) bool {
	return model.Log != nil && model.Life.About().Multiplier != nil && model.Log.Stated.About().Errors == nil
}

// ranged gives proposals their default ranges. What the file has no number for is
// left out.
func (s *Source) ranged(all []proposal) (inputs []Input) {
	var targets []target
	for _, p := range all {
		targets = append(targets, p.target)
	}
	own := s.current(targets)
	for i, p := range all {
		in, ok := s.byRule(p, own[i])
		if !ok {
			continue
		}
		inputs = append(inputs, in)
		if n := len(inputs); p.correlation != 0 && i > 0 && all[i-1].relative > 0 && n > 1 {
			inputs[n-1].beside, inputs[n-1].correlation = n-1, p.correlation
		}
	}
	return inputs
}

// byRule returns an input with its default range; false where there is none.
func (s *Source) byRule(p proposal, own current) (Input, bool) {
	a := &Axis{Path: p.path, targets: []target{p.target}}
	in := Input{Axis: a, Range: p.words, Doubtful: p.doubtful}
	in.law = p.law
	if r := p.known; r != nil {
		a.scale = scale{unit: "%", factor: 0.01}
		in.least, in.most = site.Lookup("drives.life.afr").Bounds()
		bases := []float64{max(r.low, in.least), min(r.high, in.most)}
		if !(bases[0] < bases[1]) {
			return in, false
		}
		a.numeric(bases, a.scale.texts(bases))
		a.Own, a.OwnText = math.NaN(), s.listed(p.steps[:3])
		mean := min(max(r.mean, bases[0]), bases[1])
		in.Likely = Value{Shown: a.scale.shown(mean), Text: a.scale.text(mean, fewDigits), base: mean, made: true}
	} else if v := own.number(); !math.IsNaN(v) {
		low, high := p.low*v, p.high*v
		if p.ends != nil {
			low, high = p.ends(v)
		}
		low, high = max(low, own.Read.Low), min(high, own.Read.High)
		if !(low < high) || v == 0 && p.ends == nil {
			return in, false
		}
		a.scale = scaleOf(*own.Read)
		bases := []float64{low, high}
		a.numeric(bases, a.scale.texts(bases))
		in.Likely = Value{Shown: a.scale.shown(v), Text: spaced(own.Read.Written), base: v, made: true}
		if p.by != nil {
			in.law = distuv.Gamma{Alpha: p.by.Alpha, Beta: p.by.Beta / v}
			in.least, in.most = own.Read.Low, own.Read.High
			for i := range a.Values {
				a.Values[i].drawn = true
			}
			in.Likely = in.beyond(p.by.Mean() * v)
		}
		if p.relative > 0 {
			in.least, in.most = own.Read.Low, own.Read.High
			if p.centre > 0 {
				v *= p.centre
				for i := range a.Values {
					a.Values[i].drawn = true
				}
				in.Likely = in.beyond(v)
			}
			in.law = distuv.LogNormal{Mu: math.Log(v), Sigma: p.relative}
		}
		a.describe([]current{own})
	} else {
		low, high := p.low, p.high
		numbers := numbers(own.Node)
		for _, n := range numbers {
			if n.Value > 0 {
				low, high = max(low, n.Low/n.Value), min(high, n.High/n.Value)
			}
		}
		if len(numbers) == 0 || !(low < high) || s.multiply(a, []float64{low, high}) != nil {
			return in, false
		}
		in.Likely = Value{Shown: 1, Text: own.words, base: 1, made: true}
	}
	in.Low, in.High = a.Values[0], a.Values[1]
	return in, true
}
