package plan

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array/thorough"
)

// No group holds more of one batch than it must: its drives ÷ the batches, rounded up.
// Every bay has its number, and no two stand in one place.
func TestDealing(t *testing.T) {
	t.Parallel()
	for i, c := range []struct {
		layout         string
		drives, groups string
		batches        string
		most           int
	}{{"RAID 5", "6", "1", "3", 2}, {"RAID 60", "14", "2", "3", 3}, {"RAID 10", "8", "1", "2", 1}, {"RAID 6", "7", "1", "1", 7}, {"triple parity", "9", "1", "100", 1}} {
		if !thorough.Part(i, 2) {
			continue
		}
		p := made(t, wharf, `"RAID 5"`, `"`+c.layout+`"`, "drives = 6", "drives = "+c.drives+"\ngroups = "+c.groups, "bays = 8", "bays = 16", "batches = 3", "batches = "+c.batches, "hot_spares = 0", "hot_spares = 1")
		b := p.Bays
		held, places, spares := map[[2]int]int{}, map[[2]int]bool{}, 0
		for i, bay := range b.Bays {
			if bay.Number != i {
				t.Errorf("%s: bay %d is numbered %d, from 0", c.layout, i, bay.Number)
			}
			places[[2]int{bay.Row, bay.Column}] = true
			if bay.Spare {
				spares++
			} else if bay.Used {
				held[[2]int{bay.Group, bay.Batch}]++
			}
		}
		most := 0
		for _, n := range held {
			most = max(most, n)
		}
		if most != c.most || b.MostOfOne != c.most || len(places) != 16 || spares != 1 {
			t.Errorf("%s of %s from %s batches: %d of one batch in a group, said to be %d, want %d; %d places, %d spares", c.layout, c.drives, c.batches, most, b.MostOfOne, c.most, len(places), spares)
		}
	}
}

// Where failures are rare, a loss of single parity takes two drives, whose frailties of
// variance v multiply its chance by 1 + v if they are of one batch and by 1 if not. Of the
// 15 pairs of six drives dealt from three batches 3 are of one batch. So a loss is
// (1 + v) ÷ (1 + v·3/15) times rarer, and 1 + v times with every drive from its own. Over
// so short a life replaced drives hardly count.
func TestGainByHand(t *testing.T) {
	t.Parallel()
	for _, v := range []string{"0.5", "2"} {
		p := made(t, wharf, "price = 180", "price = 180\nbatch_variance = "+v, `"2 %"`, `"0.1 %"`, `"5 y"`, `"60 d"`)
		variance := p.Choice.Drive.BatchVariance
		for _, c := range []struct {
			what      string
			got, want float64
			holds     bool
		}{
			{"three batches", p.Bays.Gain.Value, (1 + variance) / (1 + variance*3/15), p.Bays.Gain.Holds((1 + variance) / (1 + variance*3/15))},
			{"its own", p.Bays.MostGain.Value, 1 + variance, p.Bays.MostGain.Holds(1 + variance)},
		} {
			t.Logf("variance %s, %s: %.4f, want %.4f", v, c.what, c.got, c.want)
			if !c.holds || math.Abs(c.got/c.want-1) > 0.05 {
				t.Errorf("variance %s, %s: %.4f, want %.4f; %+v", v, c.what, c.got, c.want, p.Bays)
			}
		}
	}
}

// Without redundancy spreading gains nothing; a likeness that the file does not give is
// called a guess.
func TestMixingWords(t *testing.T) {
	t.Parallel()
	jbod := strings.Join(made(t, wharf, `"RAID 5"`, `"JBOD"`, `"2 %"`, `"20 %"`).Bays.MixingWords, " ")
	if !strings.Contains(jbod, "gains nothing here") || !strings.Contains(jbod, "a guess") {
		t.Errorf("%s", jbod)
	}
	raid := strings.Join(made(t, wharf).Bays.MixingWords, " ")
	if !strings.Contains(raid, "So spreading over 3 makes a loss") || !strings.Contains(raid, "more than a group survives") {
		t.Errorf("%s", raid)
	}
}
