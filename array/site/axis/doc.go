// Package axis reads a site file again with other values at any path in it.
//
// [Open] gives a [Source]. [Source.Axis] reads an input and the values that it is
// to take, as they are typed; [Source.Inputs] lists what is uncertain, each with a
// range. [Source.With] reads the file with values of theirs in place of its own:
//
//	source, err := axis.Open(r, "site.toml")
//	response, err := source.Axis("care.response=4 h..168 h", 9)
//	file, err := source.With(response.Set(response.Values[0]))
//
// # Paths
//
// A value is named by the keys on the way to it, with points between, as errors and
// assumptions name it:
//
//	care.response
//	drives.12 TB.life.afr                things in lists go by their labels,
//	drives."8\" = big".capacity          which may be quoted; of two labels that fit
//	                                     the longer is meant
//	choices.*.hot_spares                 * is all of a list
//	drives.12 TB.life.afr_by_year.2      the second rate; .* is all of them
//	choices.*.care.response              there where choices have no such key, too
//	hazards.common_cause.per_year        and where the file has no such table
//
// What a setting puts there is read like the file, so that what is required beside
// it must be there. Three keys are the whole of a law by themselves, and take the
// place of another law: afr and mtbf of a life, exponential of a time. A setting of
// the site's care leaves what choices override as it is. Labels, the groups of
// a schedule, and what says nothing of the site itself ([site.Descriptive]) are no
// inputs.
//
// # Axes
//
// An axis is a path and the values that it takes, typed as one text:
//
//	care.response=4 h..168 h               a range, its ends as the file would have them
//	drives.12 TB.capacity=8 TB,12 TB       a list
//	choices.*.drive=8 TB,12 TB             of words too
//	care.scrub=none,168 h                  or of both, which are words then
//	care.response={ exponential = "24 h" },24 h   or of laws
//	care.response=x0.25..x4                multiples of what the file has; × too
//	care.response=x0.5,x1,x2
//
// Quotes go about a value that holds a comma or two points, or looks like a
// multiple. A range that has no 0 and whose end is 8 times its beginning or more is
// spaced by ratio, any other evenly; whole numbers come once each.
//
// Multiples go by a number, by all lengths of a law of time together, or by all
// rates of afr_by_year. Those of a whole life (drives.12 TB.life=x0.5..x2), in
// whatever form, multiply its hazard at every age, as hazard_multiplier does. Where
// several places are named, each is multiplied by itself; where one of them has
// nothing to multiply, such as "none", it stays.
//
// # The site's own log
//
// Where a [[log]] updated the failure rate of a drive, what it left takes the place of the
// file's range of that rate or of the default one: for a constant rate an input
// life.afr, for a law that ages an input hazard_multiplier, with the 95 % interval of the
// Gamma law after the log, drawn from that law and then known. So nothing is counted
// twice. Of such a drive a rate has no value of its own: one that is set is known, the log
// does not update it, and the file's figure is not what holds as entered. Multiples of a
// whole life, and of a hazard multiplier, multiply what the log left. Where a fit has
// errors, what they leave open beside the rate is drawn in every simulated life, and not
// at the settings of the doubt.
//
// # Default ranges
//
// Of what bears on the risk of some choice and has no range in the file,
// [Source.Inputs] takes a default range (rules.go has them). Fits and records bring
// their own errors; the other ranges are guesses, and say so.
package axis
