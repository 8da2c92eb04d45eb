// Package evidence reads what happened to the drives of a site, and says what it makes of
// the law by which they fail.
//
// # What is told
//
// An [Entry] is one [[log]] table of a site file: failures of drives of one model, with
// either how long how many of them ran, or a record beside the site file, in the forms
// that package record reads: a row a drive, by dates or by ages, or sums. Several
// entries of one model add up.
//
// # The update
//
// The hazard of a drive is that of its law, times a multiplier that is the same at every
// age. Before the log the multiplier has a Gamma law, Gamma(a, b); with n failures where
// the law expects H at a multiplier of 1, the cumulative hazard over the ages that were
// watched, it is Gamma(a + n, b + H): the Gamma law is conjugate to a Poisson process (A.
// Gelman et al., Bayesian Data Analysis, 3rd edition, 2013, section 2.6). With H in place
// of the time this holds for laws that age, and where drives that failed were replaced by
// new ones.
//
// The law before the log is what the rest of the program takes the rate to be:
//
//   - a record { failures, drive_days } is a Gamma law of its own, and the log adds to its
//     failures and to its drive-days; a range of what multiplies it makes that wider, and
//     leaves a Gamma law with the mean and the variance of the product;
//   - a rate for which the site file gives a range, or its multiplier, has the Gamma law
//     with the mean and the variance of the law that is taken of such a range: triangular
//     on a scale of ratios, with its peak at the likely value ([Prior]);
//   - any other rate has such a range by default ([Usual]), which is a guess and is said
//     to be one;
//   - a fit with errors has two parameters that are uncertain, shape and scale, and the log
//     updates both together ([Refitted]): it stays a fit with errors, and there is no
//     multiplier.
//
// Failures by a common cause have keys of their own, and belong in no log. The drives of
// a log are taken to be of many batches.
package evidence
