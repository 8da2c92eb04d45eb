package sim_test

import (
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim"
	"arrayodds/sim/engine"
)

func withLife(t *testing.T, life, log string) (array.Site, sim.Result) {
	t.Helper()
	f, err := site.Read(strings.NewReader(`
service_life = "5 y"

[[drives]]
label = "a"
capacity = "12 TB"
life = `+life+`
hazard_multiplier = 2
transfer = "200 MB/s"
`+log+`
[[choices]]
label = "c"
drive = "a"
layout = "RAID 6"
drives = 8
`), "site.toml")
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(t.Context(), f.Site, f.Site.Choices[0], engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e5})
	if err != nil {
		t.Fatal(err)
	}
	return f.Site, r
}

// A log beside a record is the record with its failures and its drive-days in it, those at
// twice the hazard counted twice: the same digits. A stated rate that has a Gamma law by
// its range is a record of other numbers: 1/0.0810 failures and so on, by
// TestUpdateOfAStatedRate of package evidence, and gives the chance of the record with the
// same posterior, within the intervals.
func TestLogIsARecord(t *testing.T) {
	t.Parallel()
	const log = `
[[log]]
drive = "a"
failures = 3
drive_days = 100000
`
	_, got := withLife(t, `{ failures = 4, drive_days = 500000 }`, log)
	_, want := withLife(t, `{ failures = 7, drive_days = 700000 }`, "")
	if !reflect.DeepEqual(got, want) || want.Record == nil {
		t.Errorf("%+v\nwant\n%+v", got, want)
	}
	s, got := withLife(t, `{ afr = "1.5 %" }`, log)
	u := s.Drives[0].Life.(array.UpdatedLife)
	record := array.FieldRecord{Failures: u.Multiplier.Shape - 0.5, DriveDays: u.Multiplier.Rate / 0.015 * 365}
	s.Choices[0].Drive.Life = record
	same, err := sim.Run(t.Context(), s, s.Choices[0], engine.Options{Seed: 2, Accuracy: 0.05, MaxTrials: 1e5})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := got.LossChance, same.LossChance; a.Low > b.High || b.Low > a.High || got.Record == nil {
		t.Errorf("%+v and %+v", a, b)
	}
	_, without := withLife(t, `{ afr = "1.5 %" }`, "")
	// 100 000 days at twice 1.5 % make 8.2 failures, and there were three.
	if !(got.LossChance.Value < without.LossChance.Value) || without.Record != nil {
		t.Errorf("with three failures %v, without %v", got.LossChance.Value, without.LossChance.Value)
	}
}
