package model

import (
	"math"
	"sync/atomic"
)

// batchLives is the number of lives whose sum is one observation. The number of lives
// in sums should be a multiple of it: those of a batch that was begun do not count yet.
const batchLives = 8

// Strata is the number of strata that [Trial.Stratum] gives.
const Strata = batchLives

// Stratified is how many numbers of a life [Trial.Stratum] serves.
const Stratified = 4

// Sums adds trials up. Sums of different blocks add again: that one addition
// is all that workers, and parts of a run on several machines, need. [Fit] makes
// estimates of them.
type Sums struct {
	N            float64 // lives
	Sum          Amounts
	ByCause      ByCause   // the loss chance by what makes it
	Curve        []float64 // cumulative: first loss by the end of each year
	Steps        []float64 // the same by the end of each step, where the system asks for them
	Controls     Controls
	Largest      float64   // largest single trial's loss chance
	Failures     Histogram // drives failed in a life
	PerLoss      Histogram // camera-hours of one loss, by lossBin
	Work         int64     // units, see Trial.Work
	MostWork     int64     // that these sums may take: set by who runs the trials
	Stop         *atomic.Bool
	FiguresOnly  bool // the curve and the histograms are not kept
	Plain        bool // of plain lives, in which there is a loss or none
	amounts      [quantities]products
	curve        []products
	years        []yearSums
	steps        []products
	stepHours    float64
	losses       products // of the loss chance of single lives
	causes       causeProducts
	controlCross [controls]Controls
	trial        Trial
	batch        batch
	perSwap      float64 // missing for each drive replaced
	lost         struct {
		destroyed float64
		bin       int
	} // the last loss noted: what it destroyed, and its bin
}

// batch adds up the lives of one observation.
type batch struct {
	lives    int
	first    [Stratified]int // strata of the first life
	amounts  Amounts
	byCause  ByCause
	curve    []float64
	years    []YearControls // of each year
	steps    []float64
	controls Controls
}

// yearSums is the sums over batches of the controls of the years until one's end, and of
// their products.
type yearSums struct {
	sum   YearControls
	loss  YearControls // with the chance of a loss by then
	own   [yearControls]YearControls
	cross [yearControls]Controls
}

// observe adds a batch, with the chance of a loss by the end of the year.
func (s *yearSums) observe(loss float64, y *YearControls, c *Controls) {
	for i, x := range y {
		s.sum[i] += x
		s.loss[i] += x * loss
		for j := range i + 1 {
			s.own[i][j] += x * y[j]
		}
		for j := range c {
			s.cross[i][j] += x * c[j]
		}
	}
}

func (s *yearSums) add(o *yearSums) {
	for i := range s.sum {
		s.sum[i] += o.sum[i]
		s.loss[i] += o.loss[i]
		for j := range i + 1 {
			s.own[i][j] += o.own[i][j]
		}
		for j := range s.cross[i] {
			s.cross[i][j] += o.cross[i][j]
		}
	}
}

// products is the sums over batches of the products of one figure with itself and with
// the controls.
type products struct {
	square float64
	// tiny is the square in units of tinyUnit²: the square of a chance below 1e-154
	// is no number.
	tiny  float64
	cross Controls
}

const (
	tinyUnit   = 0x1p-600
	tinySquare = 1e-200 // squares below this are taken in tinyUnit²
)

func (p *products) observe(x float64, c *Controls) {
	p.observeAlone(x)
	for i := range c {
		p.cross[i] += x * c[i]
	}
}

// observeAlone leaves out the controls.
func (p *products) observeAlone(x float64) {
	p.square += x * x
	tiny := x * (1 / tinyUnit)
	p.tiny += tiny * tiny
}

func (p *products) add(o *products) {
	p.square += o.square
	p.tiny += o.tiny
	for i := range p.cross {
		p.cross[i] += o.cross[i]
	}
}

// NewSums returns empty sums for lives of a system, whose work is not bounded yet.
func NewSums(sys *System) *Sums {
	n := CurveLength(sys.Horizon)
	s := &Sums{
		MostWork: math.MaxInt64, Stop: new(atomic.Bool), perSwap: sys.Footage.PerSwap,
		Curve: make([]float64, n), curve: make([]products, n), years: make([]yearSums, n),
	}
	s.batch.curve, s.batch.years = make([]float64, n), make([]YearControls, n)
	s.trial = Trial{Curve: make([]float64, n), Years: s.batch.years, sums: s}
	if sys.StepHours > 0 {
		s.makeSteps(sys)
	}
	return s
}

// makeSteps makes room for the steps that a system asks for.
func (s *Sums) makeSteps(sys *System) {
	s.stepHours = sys.StepHours
	n := StepCount(sys)
	s.Steps, s.steps = make([]float64, n), make([]products, n)
	s.batch.steps, s.trial.Steps = make([]float64, n), make([]float64, n)
}

// StepCount returns the number of steps that a system asks for, the last one perhaps cut
// short.
func StepCount(sys *System) int {
	if !(sys.StepHours > 0) {
		return 0
	}
	return max(1, int(math.Ceil(sys.Horizon/sys.StepHours)))
}

// Begin returns the trial that the next life adds to.
func (s *Sums) Begin() *Trial {
	t := &s.trial
	t.Amounts = Amounts{}
	t.ByCause = ByCause{}
	t.Controls = Controls{}
	clear(t.Curve)
	clear(t.Steps)
	return t
}

// End adds the trial that Begin gave.
func (s *Sums) End() {
	t, b := &s.trial, &s.batch
	t.Amounts[MissingChance] = t.Amounts[MissingDrives] + t.Amounts[MissingSectors] + s.perSwap*t.Amounts[Failures]
	for q, x := range t.Amounts {
		b.amounts[q] += x
	}
	for c, x := range t.Controls {
		b.controls[c] += x
	}
	if y := t.Amounts[Loss]; y > 0 {
		s.losses.observeAlone(y)
		s.Largest = math.Max(s.Largest, y)
		for c, x := range t.ByCause {
			b.byCause[c] += x
		}
		sofar := 0.0
		for i, x := range t.Curve {
			sofar += x
			b.curve[i] += sofar
		}
		sofar = 0
		for i, x := range t.Steps {
			sofar += x
			b.steps[i] += sofar
		}
	}
	if b.lives++; b.lives == batchLives {
		s.endBatch()
	}
}

// endBatch adds the batch, and begins the next.
func (s *Sums) endBatch() {
	b := &s.batch
	s.N += batchLives
	for q, x := range b.amounts {
		s.Sum[q] += x
		s.amounts[q].observe(x, &b.controls)
	}
	s.causes.observe(&b.byCause)
	for c, x := range b.byCause {
		s.ByCause[c] += x
	}
	var sofar YearControls
	for i, x := range b.curve {
		for c := range sofar {
			sofar[c] += b.years[i][c]
		}
		s.Curve[i] += x
		s.curve[i].observe(x, &b.controls)
		s.years[i].observe(x, &sofar, &b.controls)
	}
	for i, x := range b.steps {
		s.Steps[i] += x
		s.steps[i].observe(x, &b.controls)
	}
	for c, x := range b.controls {
		s.Controls[c] += x
		for d, y := range b.controls {
			s.controlCross[c][d] += x * y
		}
	}
	b.reset()
}

func (b *batch) reset() {
	b.lives, b.amounts, b.byCause, b.controls = 0, Amounts{}, ByCause{}, Controls{}
	clear(b.curve)
	clear(b.years)
	clear(b.steps)
}

// Add adds the trials of o, which is of the same system.
func (s *Sums) Add(o *Sums) {
	s.AddFigures(o)
	for i := range s.Curve {
		s.Curve[i] += o.Curve[i]
		s.curve[i].add(&o.curve[i])
		s.years[i].add(&o.years[i])
	}
	for i := range s.Steps {
		s.Steps[i] += o.Steps[i]
		s.steps[i].add(&o.steps[i])
	}
	s.Failures.merge(&o.Failures)
	s.PerLoss.merge(&o.PerLoss)
}

// AddFigures adds the trials of o but for their curve and their histograms,
// which take most of the memory: s may be the zero Sums.
func (s *Sums) AddFigures(o *Sums) {
	s.N += o.N
	s.Work += o.Work
	s.losses.add(&o.losses)
	s.Largest = math.Max(s.Largest, o.Largest)
	for q := range s.Sum {
		s.Sum[q] += o.Sum[q]
		s.amounts[q].add(&o.amounts[q])
	}
	s.causes.add(&o.causes)
	for c := range s.ByCause {
		s.ByCause[c] += o.ByCause[c]
	}
	for c := range s.Controls {
		s.Controls[c] += o.Controls[c]
		for d := range s.Controls {
			s.controlCross[c][d] += o.controlCross[c][d]
		}
	}
}

// Reset empties s and keeps its memory.
func (s *Sums) Reset() {
	s.N, s.Work, s.Largest, s.losses = 0, 0, 0, products{}
	s.Sum, s.ByCause, s.Controls = Amounts{}, ByCause{}, Controls{}
	s.causes = causeProducts{}
	s.amounts = [quantities]products{}
	s.controlCross = [controls]Controls{}
	clear(s.Curve)
	clear(s.curve)
	clear(s.years)
	clear(s.Steps)
	clear(s.steps)
	s.Failures.reset()
	s.PerLoss.reset()
	s.batch.reset()
}

// EffectiveSamples returns the effective number of samples of the loss chance,
// (Σy)² ÷ Σy² over the lives' parts in it: L. Kish, Survey Sampling, 1965 (from
// memory). It is 0 where no loss was seen.
func (s *Sums) EffectiveSamples() float64 {
	sum := s.Sum[Loss]
	switch {
	case sum == 0:
		return 0
	case s.losses.square < tinySquare:
		sum /= tinyUnit
		return sum * sum / s.losses.tiny
	}
	return sum * sum / s.losses.square
}
