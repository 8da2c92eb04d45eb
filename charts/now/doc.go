// Package now writes the page of one array as it stands tonight.
//
// It is read on a phone, at three in the morning: the first screen has how it stands, what
// to do and what not to do, and nothing else. The chance hour by hour comes next, then what
// each thing that can be done takes off, then what was assumed. It is dark where the
// reader's system is.
//
// A page to practise on ([Drill]) begins with the situation and the questions, with the
// answers on the next sheet of paper.
package now

import now "arrayodds/sim/now"

// tonight is an answer, as the page draws it.
type tonight struct{ now.Result }

// Drill is an answer to a state that was drawn, for a page to practise on.
type Drill struct {
	now.Result
	File string // the state, as a state file
}
