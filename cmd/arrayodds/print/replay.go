package print

import (
	"fmt"
	"io"
	"strings"

	"arrayodds/sim/figure"
	"arrayodds/sim/history"
	"arrayodds/sim/study"
)

// Replay writes an outline of each life that the page shows.
func Replay(w io.Writer, r study.Replay) error {
	parts := append([]string{rewrapped(title(r.Site))}, updates(narrowColumns, r.Site, r.Choice)...)
	kind := fmt.Sprintf("%s of %q, as they come; %s of all lives lose footage within %s.", figure.Count(len(r.Lives), "life", "lives"), plain(r.Choice.Label), figure.Odds(r.Loss), years(r.Site.ServiceLife))
	if r.OnlyLosses {
		kind = fmt.Sprintf("%s of %q, drawn from those in which footage is lost. Of all lives of %s such are %s (95 %%: %s).",
			figure.Count(len(r.Lives), "life", "lives"), plain(r.Choice.Label), years(r.Site.ServiceLife), figure.Odds(r.Loss), figure.OddsInterval(r.Loss))
	}
	parts = append(parts, narrow("%s", kind))
	cameras := len(r.Site.Cameras) > 0
	columns := []column{{"life", 0}, {"drives\nfailed", 0}, {"rebuilt", 0}, {"bad\nsectors", 0}, {"footage\nlost", 0}, {"first on\nday", 0}}
	if cameras {
		columns = append(columns, column{"camera-\ndays lost", 0})
	}
	var rows [][]string
	for i, l := range r.Lives {
		n := map[history.Kind]int{}
		sectors := 0
		for _, e := range l.Events {
			n[e.Kind]++
			switch e.Kind {
			case history.MeetsDefects:
				sectors += e.Count
			case history.MeetsSector:
				sectors++
			}
		}
		row := []string{whole(i + 1), whole(n[history.Fails]), whole(n[history.Restored]), whole(sectors), times(n[history.LosesSet]), "-"}
		if l.Lost {
			row[5] = whole(l.Clock().Day(l.FirstLoss))
		}
		if cameras {
			row = append(row, size(l.Destroyed/24))
		}
		rows = append(rows, row)
	}
	parts = append(parts, shortRule(layOut(columns, rows)))
	for _, w := range r.Warnings {
		parts = append(parts, narrow("! %s", plain(w)))
	}
	parts = append(parts, narrow("Each life is one story out of many: no frequency can be read off them. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// times returns how often something happened: "-", "once", "2 times".
func times(n int) string {
	switch n {
	case 0:
		return "-"
	case 1:
		return "once"
	}
	return typed(figure.Count(n, "time", "times"))
}
