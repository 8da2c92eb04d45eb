package lesson

import (
	_ "embed" // the files of this folder

	"encoding/json"
	"fmt"
	"html/template"
	"io"

	"arrayodds/array"
	"arrayodds/array/label"
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
	Lead      string
	Base      string // the choice as it stands
	Questions []lessonQuestion
	Guesses   int // the last place of the slider
	Middle    int
	Data      template.JS
	Own       template.JS
	Method    string
}

// lessonQuestion is one question with its answer.
type lessonQuestion struct {
	Number        int
	Title, Ask    string
	Answer        string
	Interval      string
	Before, After string // loss chances in words
	Figures       page.Figures
	Facts         []study.Fact
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
	own string
)

var pageTemplate = page.Template(text)

// Write writes the page, which needs no network. The same l gives the same
// bytes. Nothing is written where the page cannot be made.
func Write(w io.Writer, l study.Lesson) error {
	return lesson{l}.write(w, script.Charts())
}

func (l lesson) write(w io.Writer, script []byte) error {
	all := l.charts()
	sh := page.NewLayout(l.Site.Name, "Unnamed site", "a lesson", script, all)
	scale := guesses()
	p := content{Layout: sh, Lead: l.lead(), Base: l.base(), Guesses: len(scale) - 1, Middle: len(scale) / 2,
		Method: fmt.Sprintf("Simulated by forced branching, seed %d. The same seed gives the same digits.", l.Seed),
		Footer: page.NewFooter(page.CautionsOn(l.Site, []array.Choice{l.Choice}), l.Assumptions)}
	p.Own = template.JS(own)
	var d lessonData
	for _, g := range scale {
		d.Guesses = append(d.Guesses, g.Text)
	}
	for i, q := range l.Questions {
		lq := l.question(i+1, q)
		lq.Figures = page.Figures{Script: len(script) > 0, Charts: all[i : i+1]}
		p.Questions = append(p.Questions, lq)
		a := questionAnswer{Said: "The simulation says: " + lq.Answer + ". " + lq.Interval, Series: guessSeries(all[i]), Places: guessPlaces(q, scale)}
		for _, g := range scale {
			a.Verdicts = append(a.Verdicts, verdictOn(q, g))
		}
		d.Questions = append(d.Questions, a)
	}
	data, err := json.Marshal(d)
	if err != nil {
		return fmt.Errorf("writing the lesson: %w", err)
	}
	p.Data = template.JS(data)
	return page.Execute(w, pageTemplate, p)
}

func (l lesson) question(number int, q study.Question) lessonQuestion {
	main, interval := answerWords(q)
	out := lessonQuestion{Number: number, Title: label.OneLine(q.Title), Ask: label.OneLine(q.Ask), Answer: main, Interval: interval, Why: label.OneLine(q.Why),
		Before: pointWords(q.PointBefore()), After: pointWords(q.PointAfter())}
	for _, f := range q.Facts {
		out.Facts = append(out.Facts, study.Fact{Name: label.OneLine(f.Name), Before: label.OneLine(f.Before), After: label.OneLine(f.After)})
	}
	return out
}

// pointWords is a point in words.
func pointWords(p study.LessonPoint) string {
	if p.Absent != "" {
		return label.OneLine(p.Text) + ", no figure: " + label.OneLine(p.Absent)
	}
	return label.OneLine(p.Text) + ", " + page.OddsLine(p.Loss)
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
	return fmt.Sprintf("%s about %s. Predict first, then look.", figure.Capital(figure.Count(len(l.Questions), "question", "questions")), label.OneLine(l.Choice.Label))
}

func (l lesson) base() string {
	return fmt.Sprintf("As it stands, the chance that footage is lost within %s is %s. “Twice as risky” means that footage is lost in twice as many such lives.", figure.Years(l.years()), page.OddsLine(l.Loss))
}
