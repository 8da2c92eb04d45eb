package form

import (
	"testing"

	"arrayodds/array/thorough"
)

func TestMain(m *testing.M) { thorough.Properties(m) }
