package script

import (
	"testing"
	"testing/fstest"
)

func TestWithoutTheScript(t *testing.T) {
	t.Parallel()
	if read(fstest.MapFS{"dist/README.txt": {}}) != nil {
		t.Error("there is a script where none was put in place")
	}
	if got := read(fstest.MapFS{name: {Data: []byte("draw()")}}); string(got) != "draw()" {
		t.Errorf("read %q, want draw()", got)
	}
}
