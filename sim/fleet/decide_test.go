package fleet

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/state/folder"
	"arrayodds/array/thorough"
	"arrayodds/sim/estimate"
	"arrayodds/sim/now"
)

// infant is a site of which few lives tell little: drives that fail early, bad batches, and
// a response that may take very long.
const infant = `service_life = "5 y"
[[drives]]
label = "a"
capacity = "12 TB"
life = { shape = 0.3, scale = "3000000 h" }
transfer = "200 MB/s"
batch_variance = 3
read_error = "1 in 1e15 bits"
[[choices]]
label = "c"
drive = "a"
layout = "RAID 6"
drives = 12
groups = 1
[care]
response = { lognormal = { median = "24 h", p90 = "400 h" } }
`

// infants is a fleet of such arrays of these ages, of which a drive is down each.
func infants(t *testing.T, ages ...string) Request {
	t.Helper()
	return infantsOf(t, infant, ages...)
}

// infantsOf is the same of another site.
func infantsOf(t *testing.T, site string, ages ...string) Request {
	t.Helper()
	dir := t.TempDir()
	files := map[string]string{"site.toml": site}
	for _, age := range ages {
		files[age+folder.Ending] = "age = \"" + age + "\"\n[[drives]]\nnumber = 4\nstate = \"down\"\n"
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return readMade(t, dir, usual())
}

// The first lives of an array leave open whether a visit helps. The younger of two that are
// alike but for their ages is the more endangered, by the hazard that falls, and first: it
// is not to stand last because nothing is known of it.
func TestUndecidedIsLookedAtAgain(t *testing.T) {
	t.Parallel()
	q := infants(t, "2990 d", "4500 d")
	if first := ask512(t, q); first["2990 d"].Best != nil {
		t.Fatal("the first lives leave nothing open: another example is needed")
	}
	r := ask(t, 1, q.Arrays...)
	first := &r.Arrays[0]
	if first.Name != "2990 d" || first.Best == nil || !(first.TakesOff.Low > 0) {
		t.Errorf("first is %s, with %+v and %q", first.Name, first.TakesOff, first.Advice)
	}
}

// Where the budget ends before it is known whether anything helps, that is said, and
// neither that nothing does nor that nothing is to be done.
func TestUndecidedIsSaid(t *testing.T) {
	t.Parallel()
	s := ask512(t, infants(t, "2990 d"))["2990 d"]
	if s.Best != nil || s.TakesOff.Value != 0 || !(s.TakesOff.High > 0) {
		t.Errorf("%+v helps and takes off %+v", s.Best, s.TakesOff)
	}
	if !strings.HasPrefix(s.Advice, "Not known with so few lives whether this helps: get the new drive in") {
		t.Errorf("advice %q", s.Advice)
	}
}

// ask512 answers with the first lives alone.
func ask512(t *testing.T, q Request) map[string]Standing {
	t.Helper()
	q.Options.MaxTrials, q.replicates = firstLives, years(leastReplicates)
	r, err := Ask(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	return byName(r)
}

// An action with which no loss was seen comes first by its ratio, and does not hide that the
// next one helps for certain.
func TestKnownHelpBehindOneUnseen(t *testing.T) {
	t.Parallel()
	unseen := now.Action{Name: "unseen", Ratio: estimate.Estimate{High: math.Inf(1), RelativeError: 1}}
	helps := now.Action{Name: "helps", Ratio: estimate.FromInterval(0.4, 0.3, 0.5)}
	r := now.Result{Actions: []now.Action{unseen, helps}}
	if a := helping(&r); a == nil || a.Name != "helps" {
		t.Errorf("%+v helps", a)
	}
	if a := undecided(&r); a == nil || a.Name != "unseen" {
		t.Errorf("%+v is undecided", a)
	}
}

// Arrays whose first lives are not to be trusted are told apart with as many as may be, as
// others are, though they were simulated further already until they were to be trusted.
func TestWarnedOfAreToldApart(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "as many lives as may be take a second")
	slow := strings.Replace(infant, "400 h", "2000 h", 1)
	q := infantsOf(t, slow, "600 d", "601 d")
	for name, s := range ask512(t, q) {
		if s.Lives == firstLives {
			t.Fatalf("%s: the first lives are to be trusted: another example is needed", name)
		}
	}
	for _, s := range ask(t, 2, q.Arrays...).Arrays {
		if s.Lives != DefaultMaxTrials {
			t.Errorf("%s: takes off %+v in %d lives", s.Name, s.TakesOff, s.Lives)
		}
	}
}
