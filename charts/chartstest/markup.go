package chartstest

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"arrayodds/charts/page"
)

const StandIn = "/* a stand-in for the chart script */"

// Loads matches whatever would make a browser fetch.
var Loads = regexp.MustCompile(`(?i)(src|href|action|poster|srcset)\s*=\s*["']?\s*(https?:)?//|url\(\s*["']?(https?:)?//|@import`)

// Hostile is a label that is markup, script, template and line breaks at once.
const Hostile = `<script>window.hit=1</script></script><img src=x onerror="window.hit=1"> "q" 'q' {a}{b|c} __f__window.hit=1__f__` + "\n\u2028\u2029end"

// NoMarkup holds a page of hostile labels against what would show that one was
// taken as it came.
func NoMarkup(t *testing.T, page string) {
	t.Helper()
	for _, bad := range []string{"<script>window", "<img", `onerror="`, "\u2028", "\u2029"} {
		if strings.Contains(page, bad) {
			t.Errorf("the page holds %q as it came", bad)
		}
	}
}

// Render returns the text of a page with that chart script, with plain blanks. Without
// the real script a stand-in takes its place, so that the words are tested wherever Go
// runs.
func Render(t testing.TB, c page.Contents, script string) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.WriteWith(&b, c, []byte(script)); err != nil {
		t.Fatal(err)
	}
	return strings.NewReplacer("\u202f", " ", "\u00a0", " ").Replace(b.String())
}
