package compare

import (
	_ "embed" // the files of this folder

	"fmt"
	"io"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/charts/script"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// content is what the template is given.
type content struct {
	page.Layout
	page.Footer
	Report   report
	Summary  summary
	Tables   []page.Table
	Compared page.Table
	Policy   page.Table
	Method   string
}

//go:embed compare.html
var text string

var pageTemplate = page.Template(text)

// Write writes the report as one page that needs no network. The same
// report gives the same bytes. Nothing is written where the page cannot be
// made.
func Write(w io.Writer, r study.Comparison) error {
	return report{r}.write(w, script.Charts())
}

func (r report) write(w io.Writer, script []byte) error {
	sh := page.NewLayout(r.Site.Name, "Unnamed site", "arrays compared", script, r.charts())
	p := content{
		Layout:   sh,
		Footer:   page.NewFooter(study.Cautions(r.Site, r.Choices(), r.Plain), r.Assumptions),
		Report:   r,
		Summary:  r.summarise(),
		Tables:   r.tables(),
		Compared: r.comparedTable(),
		Policy:   r.policyTable(),
		Method:   r.method(),
	}
	return page.Execute(w, pageTemplate, p)
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
func (p content) Years() string { return figure.Years(p.Report.years()) }

func (r report) charts() []draw.Chart {
	all := []draw.Chart{r.lossChart(), r.yearsChart(), r.costChart(), r.causesChart()}
	for i := range all {
		all[i].Print = draw.OnPaper(all[i], len(r.Outcomes))
	}
	return all
}

// tables is every figure of every choice, by what is asked of it.
func (r report) tables() []page.Table {
	t := []page.Table{r.roomTable()}
	if r.hasCameras() {
		t = append(t, r.retentionTable())
	}
	t = append(t, r.lossTable(), r.curveTable())
	if r.hasCameras() {
		t = append(t, r.missingTable())
	}
	if r.Site.Estimated() {
		t = append(t, r.estimatedTable())
	}
	return append(t, r.destroyedTable(), r.workTable(), r.moneyTable(), r.trustTable())
}
