package sim

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
)

// Of a choice that is too busy no estimate is known, and nothing looks like one.
func TestBusyResultKnowsNothing(t *testing.T) {
	t.Parallel()
	r := TooBusy(&engine.BusyError{Choice: "busy", Failures: 1e6})
	var walk func(name string, v reflect.Value)
	walk = func(name string, v reflect.Value) {
		if e, ok := v.Interface().(estimate.Estimate); ok {
			if e.Known() || !math.IsNaN(e.Low) || !math.IsNaN(e.High) {
				t.Errorf("%s is %+v", name, e)
			}
			return
		}
		if v.Kind() == reflect.Struct {
			for i := range v.NumField() {
				walk(name+"."+v.Type().Field(i).Name, v.Field(i))
			}
		}
	}
	walk("Result", reflect.ValueOf(r))
	if r.StoppedBy != engine.ByBound || len(r.Warnings) != 1 || !strings.HasPrefix(r.Warnings[0], "not simulated: its drives fail about 1e+06 times") {
		t.Errorf("stopped by %q, warnings %q", r.StoppedBy, r.Warnings)
	}
}
