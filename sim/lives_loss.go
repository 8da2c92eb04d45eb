package sim

import (
	"context"
	"errors"

	"arrayodds/sim/model"
)

func thatLose(ctx context.Context, sys *model.System, n int, opt Options) (Lives, error) {
	return Lives{}, errors.New("lives with a loss cannot be told yet")
}
