package plain

import (
	"math"
	"testing"

	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// pairs is two sets of a mirrored pair each, in which nothing happens by itself
// and waits and rebuilds have no chance in them.
func pairs() *model.System {
	return &model.System{
		Horizon: 10000, Sets: 2, GroupsPerSet: 1, Drives: 2, Tolerance: 1, Degraded: []float64{1, 1},
		Life: law.Constant{PerHour: 1e-15}, Stop: true, LatentRate: 1e-12, Spares: 1,
		Repair: model.Repair{Notice: law.Fixed(10), Response: model.Wait{Law: law.Fixed(90)}, Restock: model.Wait{Law: law.Fixed(500)}, Rebuild: 20},
	}
}

func follow(t *testing.T, h history.History) []history.Event {
	t.Helper()
	sys := pairs()
	h.Life, h.Rate, h.Batch = sys.Life, 1, 1
	var rec history.Record
	if !New(sys).Follow(&h, stream.New(1, 1), model.NewSums(sys).Begin(), &rec) {
		t.Fatal("the life does not come to its end")
	}
	return rec.Events
}

// is fails where events are not of these kinds at these times in these groups.
func is(t *testing.T, got, want []history.Event) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d events, %+v, want %d", len(got), got, len(want))
	}
	for i, e := range got {
		w := want[i]
		if e.Kind != w.Kind || math.Abs(e.At-w.At) > 1e-9 || e.Group != w.Group || e.BySector != w.BySector {
			t.Errorf("event %d is %+v, want %+v", i, e, w)
		}
	}
}

// Common cause takes a drive of each pair; the first pair is lost to a defect.
// The second one has not been seen to then, and takes the spare.
func TestFollowADefectAmongSeveralFailures(t *testing.T) {
	any := history.Drive{Any: true}
	is(t, follow(t, history.History{
		Steps: []history.Step{
			{At: 100, What: history.Common, Group: -1},
			{At: 100, What: history.Failure, Group: 0, Drive: any},
			{At: 100, What: history.Failure, Group: 1, Drive: any},
		},
		Loss: history.Loss{At: 100, By: history.ByDefect, Group: 0},
	}), []history.Event{
		{At: 100, Kind: history.CommonCause},
		{At: 100, Kind: history.Fails, Group: 0},
		{At: 100, Kind: history.Fails, Group: 1},
		{At: 100, Kind: history.MeetsDefects, Group: 0},
		{At: 100, Kind: history.LosesSet, Group: 0, BySector: true},
		{At: 100, Kind: history.TakesSpare, Group: 1},
		{At: 100, Kind: history.Rebuilds, Group: 1},
		{At: 120, Kind: history.Restored, Group: 1},
		{At: 200, Kind: history.StartsAgain},
	})
}

// What waits at the loss goes on waiting, a rebuild goes on, and a spare that
// was taken before is back when it is due.
func TestFollowGoesOnWithWhatIsUnderWay(t *testing.T) {
	any := history.Drive{Any: true}
	is(t, follow(t, history.History{
		Steps: []history.Step{
			{At: 100, What: history.Failure, Group: 1, Drive: any},
			{At: 100, What: history.Spare, Group: 1, Hours: 600},
			{At: 100, What: history.Rebuild, Group: 1, Hours: 20},
			{At: 120, What: history.Finished, Group: 1, Batch: 1},
			{At: 150, What: history.Failure, Group: 1, Drive: any},
			{At: 150, What: history.Wait, Group: 1, Hours: 333},
			{At: 160, What: history.Failure, Group: 0, Drive: any},
			{At: 160, What: history.Wait, Group: 0, Hours: 444},
		},
		Loss: history.Loss{At: 170, By: history.ByCommon, Group: 0, Struck: []int{1, 0}},
	}), []history.Event{
		{At: 100, Kind: history.Fails, Group: 1},
		{At: 100, Kind: history.TakesSpare, Group: 1},
		{At: 100, Kind: history.Rebuilds, Group: 1},
		{At: 120, Kind: history.Restored, Group: 1},
		{At: 150, Kind: history.Fails, Group: 1},
		{At: 160, Kind: history.Fails, Group: 0},
		{At: 170, Kind: history.CommonCause},
		{At: 170, Kind: history.Fails, Group: 0},
		{At: 170, Kind: history.LosesSet, Group: 0},
		{At: 270, Kind: history.StartsAgain},
		{At: 333, Kind: history.Arrives, Group: 1},
		{At: 333, Kind: history.Rebuilds, Group: 1},
		{At: 353, Kind: history.Restored, Group: 1},
	})
}

// Tracing a life draws what adding it up draws.
func TestTraceIsLife(t *testing.T) {
	sys := pairs()
	sys.Life, sys.ShockRate, sys.ShockChance, sys.LatentRate = law.Constant{PerHour: 1e-3}, 1e-3, 0.3, 1e-4
	a, b := model.NewSums(sys), model.NewSums(sys)
	p := New(sys)
	for k := range uint64(200) {
		var rec history.Record
		p.Life(stream.New(7, k), a.Begin())
		a.End()
		p.Trace(stream.New(7, k), b.Begin(), &rec)
		b.End()
	}
	if a.Sum != b.Sum || a.Sum[model.Loss] == 0 {
		t.Errorf("added up %v, traced %v", a.Sum, b.Sum)
	}
}
