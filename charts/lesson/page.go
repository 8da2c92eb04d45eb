package lesson

import (
	_ "embed" // the files of this folder
	"fmt"
	"html/template"
	"io"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/teach"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Base      string // the choice as it stands
	Questions []lessonQuestion
	NotAsked  []string
	Answered  bool // the answers are in the page
	Guesses   int  // the last place of the slider
	Middle    int
	Data      lessonData
	Own       template.JS // the page's own script
}

// lessonQuestion is one question with its answer.
type lessonQuestion struct {
	Number        int
	Title, Ask    string
	Answer        string
	Interval      string
	Before, After string // loss chances in words
	Charts        []draw.Chart
	Facts         []teach.Fact
	Same          string // the facts that do not change, in a line
	Why           string
}

// lessonData is what the page's script is given: it picks and shows, and works
// nothing out.
type lessonData struct {
	Guesses   []string         `json:"guesses"`
	Questions []questionAnswer `json:"questions"`
}

// questionAnswer is a question's part of it, by place of the slider.
type questionAnswer struct {
	Said     string       `json:"said"`
	Verdicts []string     `json:"verdicts"`
	Series   int          `json:"series"` // of the prediction, in the drawing
	Places   []guessPlace `json:"places"` // null: it is not drawn
}

// The page's own files.
var (
	//go:embed lesson.html
	text string
	//go:embed lesson.js
	own template.JS
)

var pageTemplate = page.Template(text)

// Write writes the page of a lesson as [page.Write] does.
func Write(w io.Writer, l teach.Lesson) error { return page.Write(w, lesson{l}.contents()) }

func (l lesson) contents() *contents {
	if l.Unanswered {
		return l.sheet()
	}
	all, scale := l.charts(), guesses()
	c := &contents{
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(l.Site.Name),
			Kind:     "a lesson",
			Charts:   all,
			Lead:     l.lead(),
			Method:   fmt.Sprintf("Simulated by forced branching, seed %d. The same seed gives the same digits.", l.Seed),
			Footer:   page.NewFooter(page.Cautions(l.Site, []array.Choice{l.Choice}), l.Assumptions),
		},
		Base:     l.base(),
		NotAsked: page.OneLines(l.NotAsked),
		Answered: true,
		Guesses:  len(scale) - 1,
		Middle:   len(scale) / 2,
		Own:      own,
	}
	for _, g := range scale {
		c.Data.Guesses = append(c.Data.Guesses, g.Text)
	}
	for i, q := range l.Questions {
		lq := l.question(i+1, q)
		lq.Charts = all[i : i+1]
		c.Questions = append(c.Questions, lq)
		a := questionAnswer{Said: "The simulation says: " + lq.Answer + ". " + lq.Interval, Series: guessSeries(all[i]), Places: guessPlaces(q, scale)}
		for _, g := range scale {
			a.Verdicts = append(a.Verdicts, verdictOn(q, g))
		}
		c.Data.Questions = append(c.Data.Questions, a)
	}
	return c
}

// sheet returns the questions alone, with room for predictions.
func (l lesson) sheet() *contents {
	c := &contents{
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(l.Site.Name),
			Kind:     "a lesson, without answers",
			Lead:     l.lead(),
			Footer:   page.NewFooter(page.Cautions(l.Site, []array.Choice{l.Choice}), l.Assumptions),
		},
		Base:     fmt.Sprintf("Write down how many times riskier or safer you take it to be, within %s. “Twice as risky” means that footage is lost in twice as many such lives.", page.ServiceLife(l.Site)),
		NotAsked: page.OneLines(l.NotAsked),
	}
	for i, q := range l.Questions {
		c.Questions = append(c.Questions, lessonQuestion{Number: i + 1, Title: label.OneLine(q.Title), Ask: label.OneLine(q.Ask)})
	}
	return c
}

func (l lesson) question(number int, q teach.Question) lessonQuestion {
	main, interval := answerWords(q)
	out := lessonQuestion{Number: number, Title: label.OneLine(q.Title), Ask: label.OneLine(q.Ask), Answer: main, Interval: interval, Why: label.OneLine(q.Why),
		Before: pointWords(q.PointBefore()), After: pointWords(q.PointAfter())}
	var same []string
	for _, f := range q.Facts {
		if f.Before == f.After {
			same = append(same, label.OneLine(f.Name)+": "+label.OneLine(f.Before))
			continue
		}
		out.Facts = append(out.Facts, teach.Fact{Name: label.OneLine(f.Name), Before: label.OneLine(f.Before), After: label.OneLine(f.After)})
	}
	if same != nil {
		out.Same = "The same before and after: " + strings.Join(same, "; ") + "."
	}
	return out
}

// pointWords returns a point in words.
func pointWords(p teach.Point) string {
	if p.Absent != "" {
		return label.OneLine(p.Text) + ", no figure: " + label.OneLine(p.Absent)
	}
	return label.OneLine(p.Text) + ", " + page.OddsText(p.Loss)
}

func (l lesson) charts() []draw.Chart {
	var all []draw.Chart
	for i := range l.Questions {
		all = append(all, l.chart(i+1))
	}
	return all
}

func (l lesson) lead() string {
	if len(l.Questions) == 0 {
		return fmt.Sprintf("There is nothing to ask about %s: none of its inputs can be moved.", label.OneLine(l.Choice.Label))
	}
	then := "Predict first, then look."
	if l.Unanswered {
		then = "Predict; the answers are on another page."
	}
	return fmt.Sprintf("%s about %s. %s", figure.Capital(figure.Count(len(l.Questions), "question", "questions")), label.OneLine(l.Choice.Label), then)
}

func (l lesson) base() string {
	return fmt.Sprintf("As it stands, the chance that footage is lost within %s is %s. “Twice as risky” means that footage is lost in twice as many such lives.", page.ServiceLife(l.Site), page.OddsText(l.Loss))
}
