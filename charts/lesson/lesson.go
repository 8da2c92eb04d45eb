package lesson

import (
	"arrayodds/sim/study"
)

// lesson is a lesson as its page asks it.
type lesson struct{ study.Lesson }
