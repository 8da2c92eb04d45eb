package axis_test

import (
	"fmt"
	"strings"

	"arrayodds/array/site/axis"
)

// A site file is read again with other values of one key.
func Example() {
	const yard = `service_life = "5 y"
[[drives]]
label = "12 TB"
capacity = "12 TB"
life = { afr = "1.5 %" }
transfer = "210 MB/s"
[[choices]]
label = "double parity"
drive = "12 TB"
layout = "RAID 6"
drives = 8
`
	source, err := axis.Open(strings.NewReader(yard), "yard.toml")
	if err != nil {
		fmt.Println(err)
		return
	}
	response, err := source.Axis("care.response=4 h,24 h,72 h", 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range response.Values {
		file, err := source.With(response.Set(v))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(v.Text, file.Site.Choices[0].Care.Response)
	}
	// Output:
	// 4 h {4}
	// 24 h {24}
	// 72 h {72}
}
