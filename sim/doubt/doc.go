// Package doubt finds what not knowing its inputs does to a chance.
//
// A chance that is simulated at one setting of its inputs has an interval, which says how
// well the simulation knows its own answer. What the inputs leave open is a matter apart,
// and mostly the larger one. So the chance is simulated at many settings, drawn from the
// laws of all inputs together ([Design]), and a [Sample] of what came of it says:
//
//   - what to reckon with, the mean over the settings ([Sample.Mean]);
//   - how far the chance is spread, noise of the simulation taken out ([Sample.Quantiles]);
//   - in how many of the settings one choice is safer than another ([Safer]);
//   - which input moves it how far ([Effects]).
//
// # Replicates
//
// Settings come as independent Latin hypercubes, [Replicates] of them. All settings of one
// are simulated from the same random streams, and so is the chance as entered; those of
// another from others. So what a few lives happen to say drops out of the ratio of a
// setting to the chance as entered as far as both share it, and what is left differs from
// replicate to replicate, where the jackknife sees it together with the chance in the draw
// of the settings: J. W. Tukey, "Bias and confidence in not-quite large samples", Annals
// of Mathematical Statistics 29, 1958 (from memory).
package doubt
