package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/sim/history"
	"arrayodds/sim/study"
	"arrayodds/sim/trace"
)

func TestReplay(t *testing.T) {
	s, outcomes := sample()
	r := study.Replay{Site: s, Choice: outcomes[0].Choice, Loss: likely, OnlyLosses: true, Lives: []trace.Life{
		{FirstLoss: math.NaN()},
		{Lost: true, FirstLoss: 24 * 811.5, Destroyed: 24 * 12345, Events: []history.Event{{Kind: history.Fails}, {Kind: history.Fails}, {Kind: history.Restored}, {Kind: history.MeetsDefects, Count: 2}, {Kind: history.MeetsSector}, {Kind: history.LosesSet}, {Kind: history.LosesSet}}},
	}}
	some := show(t, func(b *strings.Builder) error { return Replay(b, r) })
	r.Site.Cameras, r.OnlyLosses, r.Lives = nil, false, r.Lives[:1]
	narrowGolden(t, "replay.txt", some+"\n----\n\n"+show(t, func(b *strings.Builder) error { return Replay(b, r) }))
}
