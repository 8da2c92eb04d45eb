package desk_test

import (
	"os"
	"testing"

	"arrayodds/cmd/arrayodds/desk"
)

// One letter that is not ASCII makes a browser read the whole page more slowly.
func TestThePageIsASCII(t *testing.T) {
	t.Parallel()
	page, err := os.ReadFile(written(t, withFirst(t, desk.Given{Name: "Læsø 𝄞.toml", Text: "name = \"Læsø 𝄞\"\n"})))
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range page {
		if c >= 0x80 {
			t.Fatalf("byte %#x near %q", c, page[max(0, i-40):min(len(page), i+40)])
		}
	}
}
