package chartstest

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"arrayodds/charts/page"
)

// StandIn is in the place of the chart script, so that words are tested wherever Go
// runs.
const StandIn = "/* a stand-in for the chart script */"

// Hostile is a label that is markup, script, template and line breaks at once.
const Hostile = `<script>window.hit=1</script></script><img src=x onerror="window.hit=1"> "q" 'q' {a}{b|c} __f__window.hit=1__f__` + "\n\u2028\u2029end"

// Render returns the text of a page with that chart script, with plain blanks.
func Render(t testing.TB, c page.Contents, script string) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.WriteWith(&b, c, script); err != nil {
		t.Fatal(err)
	}
	return plainBlanks.Replace(b.String())
}

// CheckPage holds a page against what any page must be: it says what is wanted, the
// same each time, shows no figure that is none, loads nothing, and without the chart
// script says so and has no drawings. make returns its contents. CheckPage returns its
// text, as [Render] does.
func CheckPage(t testing.TB, make func() page.Contents, want ...string) string {
	t.Helper()
	text := Render(t, make(), StandIn)
	for _, w := range want {
		if !strings.Contains(text, w) && !strings.Contains(text, escaped.Replace(w)) {
			t.Errorf("the page does not say %q", w)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "<nil>", "%!"} {
		if strings.Contains(text, bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	if text != Render(t, make(), StandIn) {
		t.Error("two pages of the same results differ")
	}
	if found := loads(text); found != "" {
		t.Errorf("the page loads something: %s", found)
	}
	if !strings.Contains(text, `content="default-src 'none'`) {
		t.Error("the page does not forbid loading")
	}
	if strings.Contains(text, missing) {
		t.Error("the page says that the chart script is missing, and it is not")
	}
	bare := Render(t, make(), "")
	if !strings.Contains(bare, missing) || !strings.Contains(bare, "make setup") || strings.Contains(bare, `class="drawing"`) {
		t.Error("the page without the chart script does not say so, or has drawings")
	}
	return text
}

const missing = "The charts are missing."

// escaped are marks as a template writes them.
var escaped = strings.NewReplacer("'", "&#39;", `"`, "&#34;")

// loads returns what of a page would make a browser fetch, "" where nothing would.
func loads(text string) string {
	low := strings.ToLower(text)
	if strings.Contains(low, "@import") {
		return "@import"
	}
	// A pattern that is looked for in the whole text takes most of the time of these tests.
	for at, next := 0, 0; ; at += next + 1 {
		if next = strings.Index(low[at:], "//"); next < 0 {
			return ""
		}
		end := at + next + len("//")
		if found := address.FindString(low[max(0, end-200):end]); found != "" {
			return found
		}
	}
}

// address matches where an address begins that a browser would fetch from.
var address = regexp.MustCompile(`((src|href|action|poster|srcset)\s*=\s*["']?\s*|url\(\s*["']?)(https?:)?//$`)

// CheckNoMarkup holds a page of hostile labels against what would show that one was
// taken as it came.
func CheckNoMarkup(t testing.TB, c page.Contents) {
	t.Helper()
	text := Render(t, c, StandIn)
	for _, bad := range []string{"<script>window", "<img", `onerror="`, "\u2028", "\u2029"} {
		if strings.Contains(text, bad) {
			t.Errorf("the page holds %q as it came", bad)
		}
	}
	if !strings.Contains(text, "&lt;script&gt;window.hit=1&lt;/script&gt;") {
		t.Error("no label is shown as text")
	}
}
