package sim

import (
	"context"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/engine"
	"arrayodds/sim/simtest"
)

// Where bit rates are estimated, the run gives the risk at both ends of the
// range: at the high one rebuilds are left less of the drives, and a ring that
// is too small reaches back less far.
func TestEstimatedBitRateIsCarriedAsARange(t *testing.T) {
	site, choice := simtest.OftenFailing()
	choice.Drive.Life = array.ConstantRate{AFR: 0.1}
	choice.Care.RebuildShare = 1
	opt := engine.Options{Seed: 1, Accuracy: 0.01, MaxTrials: 1e6}
	given, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	if given.AtLowBitRate != nil || given.AtHighBitRate != nil {
		t.Error("a measured bit rate has no range")
	}

	site.Cameras[0].Count = 200
	site.Cameras[0].Picture = array.Picture{Pixels: 2560 * 1440, FramesPerSecond: 25, Codec: array.H264}
	_, site.Cameras[0].BitRate, _ = site.Cameras[0].Picture.BitRate()
	r, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	low, high := r.AtLowBitRate, r.AtHighBitRate
	if low == nil || high == nil {
		t.Fatal("an estimated bit rate has no range")
	}
	if !(low.LossChance.High < r.LossChance.Low && r.LossChance.High < high.LossChance.Low) {
		t.Errorf("loss chance %+v at the low rate, %+v, %+v at the high", low.LossChance, r.LossChance, high.LossChance)
	}
	if !(low.MissingClip.Value < r.MissingClip.Value && r.MissingClip.Value < high.MissingClip.Value) {
		t.Errorf("missing %g at the low rate, %g, %g at the high", low.MissingClip.Value, r.MissingClip.Value, high.MissingClip.Value)
	}
}
