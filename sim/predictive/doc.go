// Package predictive says whether what happened at a site is likely under its assumptions,
// and which of them to doubt if it is not.
//
// Every log of a drive model is looked at in up to three ways:
//
//   - the count: with the rate as uncertain as it was taken to be before the log, so many
//     failures have a negative binomial law ([Counts]). Too many or too few of them speak
//     against the rate. A batch variance widens the law as if the drives were of one batch;
//   - the ages, where the record tells of each drive: by the cumulative hazard of all drives
//     that were watched at an age the ages of failures are spread evenly (time rescaling),
//     and their mean is held against that: Laplace's test, NIST/SEMATECH e-Handbook of
//     Statistical Methods, section 8.2.3.4. Failures that come too late or too early speak
//     against how the rate changes with age, whatever the rate is;
//   - clusters, where the record has days: the most failures within any seven days, against
//     2 000 draws in which each comes by itself, in proportion to the hazard of the drives
//     that ran on each day (a scan statistic; J. Glaz, J. Naus, S. Wallenstein, Scan
//     Statistics, 2001, from memory). Too many speak for a common cause, or a bad batch.
//
// # When something is called unlikely
//
// With several looks something rare is seen in one of them more often. So a look is called
// unlikely where it is so rare that of all looks at the logs of a site together one in
// twenty would have such a one, the assumptions being right: below 5 % divided by their
// number (Bonferroni). Looking again each month adds looks that this does not know of: a
// site that is looked at twenty times will look unlikely once.
package predictive
