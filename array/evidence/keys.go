package evidence

import "arrayodds/array/toml"

const (
	fileRight  = `a .csv file beside the site file or in a folder beneath it, such as "failures.csv"`
	driveRight = "the label of one of the [[drives]]"
)

// Key is the key of the tables of a log in a site file.
var Key = toml.Key{Path: "log", Kind: toml.Tables, Most: 20, Item: "log",
	Doc: "What happened to the drives of one model at this site; it updates their failure rate."}

// Keys are the keys of one of these tables.
var Keys = []toml.Key{
	{Path: "drive", Called: "drive model", Kind: toml.Text, LabelOf: "drives", Required: true, Right: driveRight, Doc: "The label of the drive model that it is of."},
	{Path: "file", Kind: toml.Text, Required: true, Instead: []string{"failures"}, Right: fileRight, Excludes: []string{"failures", "drive_days", "drives", "since", "age"},
		Doc: "A record of each drive, or of sums, in any form that fit reads, in place of figures here."},
	{Path: "model", Kind: toml.Text, Excludes: []string{"failures", "drive_days", "drives", "since", "age"}, Doc: "Of a record of several models, which of them; without it that with the drive's label."},
	{Path: "failures", Called: "failures at the site", Kind: toml.Whole, Min: "0", Max: "1e9", Required: true, Instead: []string{"file"}, Excludes: []string{"file", "model"},
		Doc: "Drives that failed and were replaced; those by a common cause are not counted."},
	{Path: "drive_days", Called: "drive-days at the site", Kind: toml.Number, Min: "1", Max: "1e12", Required: true, Instead: []string{"file", "drives"}, Excludes: []string{"file", "model", "drives", "since", "until", "age"},
		Missing: "drives, since and until in its place", Doc: "The days that all of them ran, added up, of a drive whose failure rate does not change with age."},
	{Path: "drives", Called: "drives in the log", Kind: toml.Whole, Min: "1", Max: "100000", Required: true, Instead: []string{"file", "drive_days"}, Excludes: []string{"file", "model", "drive_days"},
		Doc: "How many of them ran at a time, beside since and until."},
	{Path: "since", Kind: toml.Date, Required: true, Instead: []string{"file", "drive_days"}, Excludes: []string{"file", "model", "drive_days"}, Doc: "The day on which watching them began."},
	{Path: "until", Kind: toml.Date, Excludes: []string{"drive_days"}, Doc: "The day on which it ended; of a record with dates, drives not removed by then were running."},
	{Path: "age", Called: "age when watching began", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Excludes: []string{"file", "model", "drive_days"}, Doc: "How old the drives were when watching began; without it they were new."},
}
