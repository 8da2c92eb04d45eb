package export

import (
	"bytes"
	"fmt"
	"io"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/export/schematest"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

// What is made up here has in it what a run has seldom: a figure that is not known, an
// end that is not bounded. Package main has the schema on what the commands write.
func TestSchemaOfWhatIsSeldom(t *testing.T) {
	busy := sample()
	busy.Outcomes[1].Result = sim.TooBusy(&engine.BusyError{Choice: "two", Failures: 440})
	busy.Outcomes[1].Doubt = nil
	plain := sample()
	plain.Doubt = nil
	for i, c := range []study.Comparison{sample(), withoutCameras(), busy, plain} {
		if !thorough.Part(i, 2) {
			continue
		}
		t.Run(fmt.Sprint("compare ", i), func(t *testing.T) { checkSchema(t, "compare", compareJSON, c) })
	}
	for _, bays := range []int{0, 2, 1000} {
		t.Run(fmt.Sprint("size ", bays), func(t *testing.T) { checkSchema(t, "size", sizeJSON, lock(bays)) })
	}
	t.Run("vary", func(t *testing.T) { checkSchema(t, "vary", varyJSON, sampleSweep()) })
	t.Run("fit", func(t *testing.T) {
		checkSchema(t, "fit", fitJSON, study.Fit{Results: []fit.Result{{Label: "12 TB"}}})
	})
}

func checkSchema[R any](t *testing.T, kind string, write func(io.Writer, R) error, result R) {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, result); err != nil {
		t.Fatal(err)
	}
	if err := schematest.CheckExactly(kind, b.Bytes()); err != nil {
		t.Error(err)
	}
	unnoticed, _ := schematest.Noticed(kind, b.Bytes())
	for _, err := range unnoticed {
		t.Error(err)
	}
}

// A result that is written as JSON has a schema.
func TestSchemaOfEveryKind(t *testing.T) {
	for _, f := range Formats {
		if kinds := schematest.Kinds(); f.Name == "json" && len(f.Writers) != len(kinds) {
			t.Errorf("%d kinds of results are written as JSON, and the schema has %d: %v", len(f.Writers), len(kinds), kinds)
		}
	}
}
