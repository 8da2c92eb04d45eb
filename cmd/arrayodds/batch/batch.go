// Package batch has what runs the parts of a question on a cluster: an array script for
// Slurm, and an Indexed Job for Kubernetes. "arrayodds help slurm" and "arrayodds help
// kubernetes" print them.
//
// In short, with 64 parts on Slurm:
//
//	arrayodds help slurm > parts.slurm
//	sbatch --array=1-64 parts.slurm compare site.toml --blocks 65536
//	arrayodds merge site-*-of-64.part --html site.html
//
// A task that was killed leaves no part. Merge then says which are missing, as Slurm takes
// them, and these are run again alone:
//
//	PARTS=64 sbatch --array=3,7 parts.slurm compare site.toml --blocks 65536
//
// On Kubernetes the Job does that by itself: each index is a part, and an index that fails
// is tried again.
package batch

import _ "embed"

// Slurm is the array script.
//
//go:embed parts.slurm
var Slurm string

// Kubernetes is the manifest of the Indexed Job.
//
//go:embed parts-job.yaml
var Kubernetes string
