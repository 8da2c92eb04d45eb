package console

import (
	"errors"
	"strings"
	"testing"
)

func TestProgressIsSilentWhereThereIsNoTerminal(t *testing.T) {
	var b strings.Builder
	p := NewProgress(&b)
	if p.Show() != nil {
		t.Error("progress is counted for nobody")
	}
	p.Clear()
	if b.Len() > 0 {
		t.Errorf("wrote %q", b.String())
	}
}

// failing is a stream that nothing can be written to.
type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

// The first error of writing stays, whoever wrote and did not look.
func TestWriterRemembersFirstError(t *testing.T) {
	full, closed := errors.New("full"), errors.New("closed")
	w := NewWriter(failing{full})
	if w.Err() != nil {
		t.Error("an error before anything is written")
	}
	if n, err := w.Write([]byte("a")); n != 0 || err != full {
		t.Errorf("%d written, %v", n, err)
	}
	w.w = failing{closed}
	if _, err := w.Write([]byte("b")); err != closed || w.Err() != full {
		t.Errorf("%v, and remembered is %v", err, w.Err())
	}
}
