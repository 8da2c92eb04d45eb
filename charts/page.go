package charts

import (
	"fmt"
	"io"

	"arrayodds/charts/script"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// page is what the template is given.
type page struct {
	shell
	foot
	Report   report
	Summary  summary
	Tables   []table
	Compared table
	Policy   table
	Method   string
}

var pageTemplate = pageOf(pageFiles, "page/page.html")

// WriteComparison writes the report as one page that needs no network. The same
// report gives the same bytes. Nothing is written where the page cannot be
// made.
func WriteComparison(w io.Writer, r study.Comparison) error {
	return report{r}.write(w, script.Charts())
}

func (r report) write(w io.Writer, script []byte) error {
	sh, err := newShell(r.Site.Name, "Unnamed site", "arrays compared", script, r.charts())
	if err != nil {
		return err
	}
	p := page{
		shell:    sh,
		foot:     footOf(study.Cautions(r.Site, r.Choices(), r.Plain), r.Assumptions),
		Report:   r,
		Summary:  r.summarise(),
		Tables:   r.tables(),
		Compared: r.comparedTable(),
		Policy:   r.policyTable(),
		Method:   r.method(),
	}
	return writePageTo(w, pageTemplate, p)
}

func (r report) method() string {
	how := "Simulated by forced branching"
	if r.Plain {
		how = "Simulated life by life, without branching"
	}
	return fmt.Sprintf("%s, seed %d, to a 95 %% half-width of %s %% of each loss chance or until the budget of trials was used up. The same seed gives the same digits.",
		how, r.Seed, figure.Exact(100*r.Accuracy))
}

// Years is the service life in words.
func (p page) Years() string { return figure.Years(p.Report.years()) }
