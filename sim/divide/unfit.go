package divide

import "fmt"

// UnfitError says that what parts found is not what is asked for: some of it is wanting, or
// there is too much, or it is of something else.
type UnfitError struct{ Why error }

func (e *UnfitError) Error() string { return e.Why.Error() }
func (e *UnfitError) Unwrap() error { return e.Why }

// unfitf returns an [UnfitError].
func unfitf(format string, a ...any) error { return &UnfitError{fmt.Errorf(format, a...)} }

// One returns the one thing that parts found of what, and an [UnfitError] where none or
// several have it.
func One[T any](found [][]byte, what string) (v T, err error) {
	if len(found) != 1 {
		return v, unfitf("found %s in %d parts; right would be one", what, len(found))
	}
	return Decode[T](found[0])
}
