package unit_test

import (
	"fmt"

	"arrayodds/array/unit"
)

// What people write is read into the one unit that is computed in.
func ExampleSize() {
	fmt.Println(unit.Size("12 TB"))
	fmt.Println(unit.Size("10.9 TiB"))
	fmt.Println(unit.Size("12 Tb"))
	// Output:
	// 1.2e+13 <nil>
	// 1.19846767427584e+13 <nil>
	// 0 found "12 Tb", with the unit "Tb"; right would be B, kB, MB, GB, TB or PB (powers of 1000), or KiB, MiB, GiB, TiB or PiB (powers of 1024) (did you mean "12 TB"?)
}

// The unit that is shown follows from what a length rounds to.
func ExampleFormatHours() {
	for _, hours := range []float64{59.94 / 3600, 59.97 / 3600, 72, 720, 43800} {
		fmt.Println(unit.FormatHours(hours))
	}
	// Output:
	// 59.9 s
	// 1 min
	// 72 h
	// 30 d
	// 5 y
}
