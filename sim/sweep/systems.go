package sweep

import (
	"context"

	"arrayodds/sim/engine"
	"arrayodds/sim/model"
)

// RunSystems simulates systems side by side as [Run] does points, all of one label.
func RunSystems(ctx context.Context, label string, systems []*model.System, opt engine.Options) (*Series, error) {
	s := newSeries(opt)
	for _, sys := range systems {
		s.addSystem(label, sys)
	}
	if err := s.run(ctx); err != nil {
		return nil, err
	}
	return s, nil
}
