package axis

import (
	"strings"
	"testing"
)

// TestResize: the drives are those of [array.Choice.Fewest]; what cannot be built
// says why, and does no harm to the others.
func TestResize(t *testing.T) {
	t.Parallel()
	s := openedFile(t, demo)
	needed := s.File().Site.Demand().Needed
	a := axis(t, s, "choices.*.drive=8 TB,12 TB,18 TB", 2)
	unfit := map[int]int{}
	for _, v := range a.Values {
		f := with(t, s, a.Set(v), Resize())
		for i, c := range f.Site.Choices {
			if f.Unfit[i] != "" {
				unfit[i]++
				continue
			}
			was, ok := c.Fewest(needed, c.Layout.Width())
			z, err := f.Site.Size(c)
			if !ok || was.Drives != c.Drives || was.Groups != c.Groups || err != nil || !z.Meets {
				t.Errorf("%s of %s: %d drives in %d groups; %v, meets %v", c.Label, v.Text, c.Drives, c.Groups, err, z.Meets)
			}
		}
	}
	if unfit[0] != 0 || unfit[3] != 2 {
		t.Errorf("unfit %v", unfit)
	}
	f := with(t, s, a.Set(a.Values[0]), Resize())
	if got, want := f.Unfit[4], "10 drives and 1 hot spare, and the recorder has 8 bays"; got != want {
		t.Errorf("%q, want %q", got, want)
	}

	one := axis(t, s, "choices.RAID 5, 6 x 18 TB.layout=RAID 6", 2)
	f = with(t, s, one.Set(one.Values[0]), Resize())
	if f.Site.Choices[0].Drives != 5 || f.Site.Choices[2].Drives != 8 {
		t.Error("a choice that was not set is resized")
	}
	f = with(t, s, one.Set(one.Values[0]), ResizeAll())
	if !(f.Site.Choices[2].Drives > 8) {
		t.Error("not every choice is resized")
	}
	count := axis(t, s, "cameras.*.count=100000", 2)
	if f = with(t, s, count.Set(count.Values[0]), ResizeAll()); f.Unfit[0] != "not even 1 000 drives hold it as JBOD" {
		t.Errorf("%q", f.Unfit[0])
	}
	// Without cameras there is no demand.
	bare := opened(t, small+"[[drives]]\nlabel = \"1 TB\"\ncapacity = \"1 TB\"\nlife = { afr = \"1 %\" }\ntransfer = \"100 MB/s\"\n")
	to := axis(t, bare, "choices.*.drive=1 TB", 2)
	if f = with(t, bare, to.Set(to.Values[0]), Resize()); f.Site.Choices[0].Drives != 8 || f.Unfit != nil {
		t.Errorf("%d drives, %v", f.Site.Choices[0].Drives, f.Unfit)
	}
	// Numbers that do not divide are no error either.
	drives := axis(t, s, "choices.RAID 10, 8 x 12 TB.drives=7", 2)
	if f = with(t, s, drives.Set(drives.Values[0])); !strings.Contains(f.Unfit[3], "odd") {
		t.Errorf("%q", f.Unfit[3])
	}
}
