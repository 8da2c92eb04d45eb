package charts

import (
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/charts/script"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// variedPage is what the template is given.
type variedPage struct {
	shell
	foot
	Heading   string
	Lead      string
	Points    []string // the short answer, a sentence each
	BreakEven *table
	Tables    []table
	Full      *table // every pair of two inputs
	Pairs     int
	Method    string
	Notes     []string
}

var variedTemplate = pageOf(pageFiles, "page/varied.html")

// WriteSweep writes the page, which needs no network. The same v gives the same
// bytes. Nothing is written where the page cannot be made.
func WriteSweep(w io.Writer, v study.Sweep) error {
	return sweep{v}.write(w, script.Charts())
}

func (v sweep) write(w io.Writer, script []byte) error {
	kind, heading := "an input varied", "One input varied over "+figure.Years(v.years())
	if len(v.Inputs) == 2 {
		kind, heading = "two inputs varied", "Two inputs varied over "+figure.Years(v.years())
	}
	sh, err := newShell(v.Site.Name, "Unnamed site", kind, script, v.charts())
	if err != nil {
		return err
	}
	if sh, err = sh.withScript(pageFiles, "page/varied.js"); err != nil {
		return err
	}
	p := variedPage{shell: sh, Heading: heading, Lead: v.lead(), Points: v.points(), Tables: v.tables(),
		Method: methodOf(v.Seed, v.Accuracy), Notes: oneLines(v.Notes), foot: v.foot()}
	if v.BreakEven != nil {
		t := v.breakEvenTable()
		p.BreakEven = &t
	}
	if len(v.Inputs) == 2 {
		t := v.pairsTable()
		p.Full, p.Pairs = &t, len(v.Inputs[0].Texts)*len(v.Inputs[1].Texts)
	}
	return writePageTo(w, variedTemplate, p)
}

// withScript puts a script of the page's own before the one that draws.
func (s shell) withScript(files fs.FS, name string) (shell, error) {
	own, err := fs.ReadFile(files, name)
	if err != nil {
		return shell{}, err
	}
	for i := range s.Charts {
		if s.Charts[i].Print == 0 {
			s.Charts[i].Print = onPaper(s.Charts[i], 0)
		}
	}
	s.Drawing = template.JS(own) + s.Drawing
	return s, nil
}

func (v sweep) charts() []chart {
	if len(v.Inputs) == 2 {
		return v.heatCharts()
	}
	own := v.variedChart(v.ownQuantity())
	if note := v.narrower(); note != "" && own.Absent == "" {
		own.Notes = append([]string{note}, own.Notes...)
	}
	all := []chart{v.variedChart(v.lossQuantity()), own}
	if v.against() >= 0 && len(v.Curves) > 1 {
		all = append(all, v.variedChart(v.againstQuantity()))
	}
	all[0].Notes = append(all[0].Notes, v.warningNotes()...)
	return all
}

func (v sweep) years() float64 { return v.Site.ServiceLife / array.HoursPerYear }

// methodOf says how the figures came about.
func methodOf(seed uint64, accuracy float64) string {
	return fmt.Sprintf("Simulated by forced branching, seed %d, to a 95 %% half-width of %s %% of each loss chance or until the budget of trials was used up. The same seed gives the same digits.",
		seed, figure.Exact(100*accuracy))
}

// oneLines makes texts safe to set, each in a line.
func oneLines(texts []string) []string {
	var out []string
	for _, t := range texts {
		out = append(out, label.OneLine(t))
	}
	return out
}

func (v sweep) foot() foot {
	var choices []array.Choice
	var paths []string
	for _, c := range v.Curves {
		choices = append(choices, c.Choice)
	}
	for _, in := range v.Inputs {
		paths = append(paths, label.Short(in.Path))
	}
	first := fmt.Sprintf("All but %s is held as the site file has it. In life inputs move together: a site that answers late may scrub late too.", strings.Join(paths, " and "))
	return footOf(cautionsOn(v.Site, choices, first), v.Assumptions)
}
