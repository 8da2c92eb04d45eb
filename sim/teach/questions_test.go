package teach

import (
	"context"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/sweep"
)

// questionOf returns the question of a key, asked of the first choice of a text.
func questionOf(t *testing.T, text, key string) question {
	t.Helper()
	a := asked(t, text)
	file := a.Source.File()
	z, err := file.Site.Size(file.Site.Choices[0])
	if err != nil {
		t.Fatal(err)
	}
	return questionsBy[key](sweep.Point{Site: file.Site, Choice: file.Site.Choices[0]}, z)
}

// The answers to wider groups, another layout and a batch, against the chain: of groups
// side by side, each is lost by itself.
func TestMoreQuestionsAgainstTheChain(t *testing.T) {
	t.Parallel()
	two := strings.Replace(chained, "drives = 5", "drives = 10\ngroups = 2", 1)
	got, err := Run(context.Background(), asked(t, two), "groups", "layout", "scrub")
	if err != nil {
		t.Fatal(err)
	}
	side := func(p float64, n int) float64 { return 1 - math.Pow(1-p, float64(n)) }
	within(t, "two groups of five", got.Loss, side(chain(5, 1, 0.02, 48), 2))
	keys := ""
	for _, q := range got.Questions {
		keys += q.Key + " "
		after := q.PointAfter()
		switch q.Key {
		case "groups": // the room of 8 drives in one group is 9 with its parity
			within(t, after.Text, after.Loss, chain(9, 1, 0.02, 48))
			if q.Title != "Wider groups" || !strings.Contains(q.Ask, "It takes 9 drives in 1 group and 9 bays where 10 in 2 and 10 bays were.") {
				t.Errorf("%s: %s", q.Title, q.Ask)
			}
		case "layout": // 16 drives in 8 pairs: a set of all pairs is lost with the first of them
			within(t, after.Text, after.Loss, side(chain(2, 1, 0.02, 48), 8))
		case "parity":
			if want := "RAID 6, 12 drives in 2 groups"; after.Text != want {
				t.Errorf("the point is %q, want %q", after.Text, want)
			}
		}
	}
	if keys != "size response parity groups layout " {
		t.Errorf("asked are %s", keys)
	}
	if len(got.NotAsked) != 1 || !strings.Contains(got.NotAsked[0], "4 TB has no latent_defects") {
		t.Errorf("not asked: %q", got.NotAsked)
	}
}

// A slower response moves what its sentence speaks of: of a choice with a hot spare
// what brings the spare back too, and of one without it nothing more.
func TestSlowerResponseMovesRestock(t *testing.T) {
	t.Parallel()
	care := strings.Replace(chained, "restore = { exponential = { low = \"12 h\", likely = \"48 h\", high = \"192 h\" } }", "response = \"24 h\"\nrestock = \"30 h\"", 1)
	for spares, want := range map[string]float64{"drives = 5": 30, "drives = 5\nhot_spares = 1": 120} {
		q := questionOf(t, strings.Replace(care, "drives = 5", spares, 1), "response")
		c := q.settings[q.after].point.Choice
		if c.Care.Response != (array.Fixed{Hours: 96}) || c.Care.Restock != (array.Fixed{Hours: want}) {
			t.Errorf("%q: the response is %v and the restocking %v, want %v h", spares, c.Care.Response, c.Care.Restock, want)
		}
		if says := strings.Contains(q.Ask, "a hot spare that was taken is back four times as late too"); says != (want == 120) {
			t.Errorf("%q is asked as %s", spares, q.Ask)
		}
	}
}

// Scrubbing is moved where there is something to find, and told in the chance of what
// it moves.
func TestScrubQuestion(t *testing.T) {
	t.Parallel()
	latent := strings.Replace(chained, "transfer = \"200 MB/s\"\nprice", "latent_defects = { mean = \"60000 h\" }\ntransfer = \"200 MB/s\"\nprice", 1)
	q := questionOf(t, latent, "scrub")
	if q.Title != "Scrubbing once a week" || q.settings[q.before].point.Choice.Care.Scrub != nil || q.settings[q.after].point.Choice.Care.Scrub != weekly || !q.Any {
		t.Errorf("%+v", q)
	}
	q = questionOf(t, strings.Replace(latent, "[care]", "[care]\nunreadable = \"stop\"\nscrub = \"100 h\"", 1), "scrub")
	if q.Title != "No scrubbing any more" || q.settings[q.before].point.Choice.Care.Scrub == nil || q.settings[q.after].point.Choice.Care.Scrub != nil || q.Any {
		t.Errorf("%+v", q)
	}
	// By hand: 100 h of 60 000 h on each of the 4 drives that are read; without a scrub
	// half of 5 years of 8 760 h.
	if got := q.more(q.settings[q.before].point).Before; got != "0.0067" {
		t.Errorf("%s bad sectors lie in wait with a scrub", got)
	}
	if got := q.more(q.settings[q.after].point).Before; got != "1.5" {
		t.Errorf("%s bad sectors lie in wait without one", got)
	}
}

// Layouts whose groups have a width of their own are not asked about other widths.
func TestGroupsThatAreAsWideAsTheyAre(t *testing.T) {
	t.Parallel()
	for layout, want := range map[string]string{"JBOD": "this is JBOD, and its drives stand alone", "4+1": "this is 4+1, and its name says how wide"} {
		q := questionOf(t, strings.Replace(chained, `layout = "RAID 5"`, `layout = "`+layout+`"`, 1), "groups")
		if q.after >= 0 || !strings.Contains(q.not, want) {
			t.Errorf("%s: asked %v, not asked %q", layout, q.after >= 0, q.not)
		}
	}
}

// A sheet without answers holds none.
func TestAskAnswersNothing(t *testing.T) {
	t.Parallel()
	a := asked(t, chained)
	got, err := Ask(a, "batch")
	if err != nil {
		t.Fatal(err)
	}
	if !got.Unanswered || len(got.Questions) != 4 || got.Loss.Known() {
		t.Errorf("%+v", got)
	}
	for _, q := range got.Questions {
		if q.Ask == "" || q.Points != nil || q.Why != "" || q.Facts != nil {
			t.Errorf("%+v", q)
		}
	}
}

// More drives than bays, or others in groups, are said; as many are not.
func TestReshaped(t *testing.T) {
	t.Parallel()
	c := func(drives, groups int) array.Choice {
		return array.Choice{Drives: drives, Groups: groups, Recorder: &array.Recorder{Bays: 8}}
	}
	for _, x := range []struct {
		before, after array.Choice
		want          string
	}{
		{c(8, 1), c(12, 2), " It takes 12 drives in 2 groups and 12 bays where 8 in 1 and 8 bays were. The recorder has 8 bays: it would have to be another one."},
		{c(8, 1), c(6, 1), " It takes 6 drives and 6 bays where 8 and 8 were."},
		{c(8, 2), c(8, 1), " It takes 8 drives in 1 group and 8 bays where 8 in 2 and 8 bays were."},
		{c(8, 2), c(8, 2), ""},
	} {
		if got := reshaped(x.before, x.after); got != x.want {
			t.Errorf("%q, want %q", got, x.want)
		}
	}
}
