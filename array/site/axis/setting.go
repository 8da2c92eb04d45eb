package axis

// Setting gives an input a value, or asks for drives to fit; see [Axis.Set] and
// [Resize].
type Setting struct {
	Axis  *Axis
	Value Value

	resize resizing
}

// resizing says which choices get the fewest drives that hold the demand.
type resizing int

const (
	resizeNone resizing = iota
	resizeSet
	resizeAll
)

// Resize has every choice whose drive or layout another setting of the same
// reading gives take the fewest drives that hold the demand
// ([array.Choice.Fewest]), its hot spares as they are. Without cameras there is no
// demand, and drives stay as they are.
func Resize() Setting { return Setting{resize: resizeSet} }

// ResizeAll returns [Resize] for every choice, set or not.
func ResizeAll() Setting { return Setting{resize: resizeAll} }

// said returns the setting as one would type it.
func (s Setting) said() string {
	if s.Axis == nil {
		return "drives to fit"
	}
	return clean(s.Axis.Path + " = " + s.Value.Text)
}
