package charts

import (
	"fmt"

	"arrayodds/array"
)

// Cautions is what a reader must know before acting on the figures; they go
// wherever the figures go.
func (r Report) Cautions() []string {
	out := []string{
		"RAID is no backup. It does not help against deletion, fire, theft, flooding, a faulty controller or a mistake. Footage that must not be lost needs a second copy elsewhere.",
		"A simulated chance is an estimate under the assumptions listed above, not a promise. The intervals are those of the simulation alone: they do not contain the doubt about the assumptions, which is often larger.",
	}
	var records, constant, open bool
	for _, o := range r.Outcomes {
		switch o.Choice.Drive.Life.(type) {
		case array.FieldRecord, array.FittedWeibull:
			records = true
		default:
			constant = true
		}
		for _, t := range []array.Time{o.Choice.Care.Notice, o.Choice.Care.Response, o.Choice.Care.Restock, o.Choice.Care.Scrub, o.Choice.Care.Restore} {
			if _, ok := t.(array.OpenHours); ok {
				open = true
			}
		}
	}
	if text := r.estimatedCaution(); text != "" {
		out = append(out, text)
	}
	if constant {
		out = append(out, "Failure rates from a data sheet are often lower than those seen in the field. Where a rate is uncertain, try it twice as high and see whether the order of the choices holds.")
	}
	if records {
		out = append(out, "Rates taken from a record of failures carry the uncertainty of that record into the loss chance; they do not tell whether the drives bought will be like those of the record.")
	}
	if open {
		out = append(out, "Times counted in open hours know the week but no holidays: over a holiday season a response takes longer than is counted here.")
	}
	if r.Plain {
		out = append(out, "This run simulated life by life, without branching. Where it saw no loss, that is no proof that there is none: read the upper end of the interval.")
	}
	out = append(out, fmt.Sprintf("“1 in N over %s” is about one array. Who runs many arrays will see losses sooner: of N such arrays, about one.", years(r.years())))
	return append(out,
		"How long footage must or may be kept, and what may be recorded at all, is a matter of local law on retention and privacy. Ask those who answer for it.",
		"Racks of drives are heavy, and recorders and their batteries carry mains power: lifting by enough hands, electrical work by qualified people only.")
}
