package study

import (
	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/estimate"
	"arrayodds/sim/trace"
)

// Replay is the result of [TraceLives].
type Replay struct {
	Site        array.Site
	Choice      array.Choice
	Sizing      array.Sizing
	Seed        uint64
	OnlyLosses  bool              // the lives are drawn from those in which footage is lost
	Loss        estimate.Estimate // chance that a life is one of those
	Lives       []trace.Life
	Slow        trace.Rebuild
	Assumptions []site.Assumption
	Warnings    []string // why the lives or the chance should not be trusted
}
