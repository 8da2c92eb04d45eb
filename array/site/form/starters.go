package form

import "arrayodds/array/site/starter"

// Starters returns invented sites to begin with, the one with a question for each figure
// first.
func Starters() []starter.Site { return starter.Sites() }
