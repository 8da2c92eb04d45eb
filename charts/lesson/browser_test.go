package lesson

import (
	"fmt"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
)

// A question is answered once there is a prediction, and then says both. With make test one
// page is looked at, on a phone.
func TestLessonInABrowser(t *testing.T) {
	t.Parallel()
	for _, p := range []struct {
		name   string
		lesson lesson
	}{{"lesson", lessonSample()}, {"lesson-hostile", hostileLesson()}} {
		if p.name != "lesson" && !thorough.Asked() {
			continue
		}
		t.Run(p.name, func(t *testing.T) {
			t.Parallel()
			tab := chartstest.NewTab(t)
			tab.Show(p.name, p.lesson.contents(), 390)
			for n := range p.lesson.Questions {
				answer(t, tab, n+1)
			}
			for i, width := range []int{390, 1280} {
				if i > 0 {
					tab.Resize(width) // to where the projector is looked at
					if !thorough.Asked() {
						break
					}
				}
				for _, place := range []int{0, 60, 40} {
					tab.Move("guess-1", place)
					tab.Move("guess-2", place)
					tab.Look("lesson-1").Check(t, len(p.lesson.Questions), 4, 4)
				}
			}
			if p.name == "lesson" {
				checkPrediction(t, tab)
				tab.CheckProjector("13 of 13") // a beginning, and of each question the question, what was found, what changes and why
			}
		})
	}
}

// answer predicts and asks for the answer of a question.
func answer(t *testing.T, tab *chartstest.Tab, n int) {
	t.Helper()
	press := fmt.Sprintf(`document.querySelector('[data-question="%d"] button').click()`, n)
	shown := func() string {
		return tab.Ask(fmt.Sprintf(`getComputedStyle(document.getElementById('answer-%d')).display`, n))
	}
	tab.Ask(press)
	if shown() != "none" {
		t.Errorf("question %d is answered before a prediction", n)
	}
	tab.Move(fmt.Sprintf("guess-%d", n), 40)
	if got := tab.Ask(fmt.Sprintf(`document.getElementById('guess-%d-is').textContent`, n)); got != "about 10 times riskier" {
		t.Errorf("the prediction is said as %q", got)
	}
	tab.Ask(press)
	if shown() != "block" {
		t.Errorf("question %d: the button does not show the answer", n)
	}
	heard := tab.Ask(fmt.Sprintf(`document.getElementById('said-%d').textContent`, n))
	if !strings.Contains(heard, "The simulation says: ") || !strings.Contains(heard, "You predicted about 10 times riskier") {
		t.Errorf("what is heard of the answer: %q", heard)
	}
}

// checkPrediction holds the page of the sample against that the prediction is drawn, and
// moves with the slider, and that on paper the answers stand at the end.
func checkPrediction(t *testing.T, tab *chartstest.Tab) {
	t.Helper()
	mine := func() string {
		return tab.Ask(fmt.Sprintf(`[...document.querySelectorAll('#drawing-lesson-3 svg path[stroke=%q]')].map(p => p.getAttribute('transform')).join()`, guessLook.Colour))
	}
	tab.Move("guess-3", 20)
	before := mine()
	tab.Move("guess-3", 28)
	if after := mine(); before == "" || after == "" || after == before {
		t.Errorf("the prediction stands at %q, then at %q", before, after)
	}
	const within = `[...document.querySelectorAll('#answers .answer')].length`
	tab.Ask(`window.dispatchEvent(new Event('beforeprint'))`)
	if got := tab.Ask(within); got != "3" {
		t.Errorf("%s answers stand at the end of what is printed, want 3", got)
	}
	tab.Ask(`window.dispatchEvent(new Event('afterprint'))`)
	if got := tab.Ask(within); got != "0" {
		t.Errorf("%s answers are left at the end after printing", got)
	}
	if got := tab.Ask(`document.getElementById('answer-3').parentNode.querySelector('h2').id`); got != "question-3" {
		t.Errorf("the answer came back to %s", got)
	}
}
