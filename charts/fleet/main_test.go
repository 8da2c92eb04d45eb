package fleet

import (
	"testing"

	"arrayodds/charts/chartstest"
)

func TestMain(m *testing.M) { chartstest.Main(m) }
