package compare

import (
	_ "embed" // the files of this folder
	"io"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/study"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Report  report
	Summary summary
	Main    []draw.Chart // that belong to the answer
	More    []draw.Chart // the others
	Tables  []page.Table // folded on a screen, whole on paper
}

//go:embed compare.html
var text string

var pageTemplate = page.Template(text)

// Write writes the report of a comparison as [page.Write] does.
func Write(w io.Writer, c study.Comparison) error { return page.Write(w, newReport(c).contents()) }

func (r report) contents() *contents {
	charts := r.charts()
	return &contents{
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(r.Site.Name),
			Kind:     "arrays compared",
			Charts:   charts,
			Heading:  "Arrays compared over " + page.ServiceLife(r.Site),
			Method:   page.Method(r.Seed, r.Accuracy, r.Plain),
			Lead:     r.answer.Question + r.estimatedDemand(),
			Footer:   page.NewFooter(study.Cautions(r.Site, r.Choices(), r.Plain), r.Assumptions),
		},
		Report:  r,
		Summary: r.summarise(),
		Main:    charts[:mainCharts],
		More:    charts[mainCharts:],
		Tables:  append(r.tables(), r.comparedTable(), r.policyTable()),
	}
}

func (r report) charts() []draw.Chart {
	return []draw.Chart{r.lossChart(), r.costChart(), r.yearsChart(), r.causesChart()}
}

// mainCharts is how many of the charts belong to the answer.
const mainCharts = 2

// tables returns every figure of every choice, by what is asked of it.
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
