package partfile

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"arrayodds/sim/divide"
)

// Named is a part with the name of its file.
type Named struct {
	Name string
	Part
}

// Join returns the question of parts, and what they found together. wrong says, an error
// each, which do not belong to the others and why, which there is more than once, and
// which are missing and how to get them.
func Join(all []Named) (q Question, found *divide.Ledger, wrong []string) {
	if len(all) == 0 {
		return q, nil, nil
	}
	identities := make([]string, len(all))
	times := map[string]int{}
	for i, p := range all {
		identities[i] = p.identity()
		times[identities[i]]++
	}
	most := 0 // the first of those to which most belong
	for i := range all {
		if times[identities[i]] > times[identities[most]] {
			most = i
		}
	}
	q = all[most].Question
	byNumber := make(map[int]Named, len(all))
	for i, p := range all {
		if identities[i] != identities[most] {
			wrong = append(wrong, fmt.Sprintf("%s does not belong to %s: %s", p.Name, all[most].Name, strings.Join(differences(p.Question, q), "; ")))
			continue
		}
		if other, there := byNumber[p.Number]; there {
			wrong = append(wrong, fmt.Sprintf("%s and %s are both part %d of %d; right would be one of them", other.Name, p.Name, p.Number, q.Parts))
			continue
		}
		byNumber[p.Number] = p
	}
	if lack := missing(q, byNumber); lack != "" {
		wrong = append(wrong, lack)
	}
	if wrong != nil {
		return q, nil, wrong
	}
	entries := make([][]divide.Entry, q.Parts)
	for i := range entries {
		entries[i] = byNumber[i+1].Found
	}
	return q, divide.Merge(entries...), nil
}

// identity returns the same bytes for parts of one question.
func (q Question) identity() string {
	q.Site = "" // its content counts, not where it lay
	q.Flags = slices.DeleteFunc(slices.Clone(q.Flags), func(f Flag) bool { return saidElsewhere(f.Name) })
	files := q.Files
	q.Files = nil // they may be long, and are not copied
	text, err := json.Marshal(q)
	if err != nil {
		panic(err) // strings and numbers have JSON
	}
	h := sha256.New()
	_, _ = h.Write(text) // a hash takes all
	for _, f := range files {
		fmt.Fprintf(h, "\n%q %d\n", f.Name, len(f.Data))
		_, _ = h.Write(f.Data)
	}
	return string(h.Sum(nil))
}

// Share makes a part hold the files of one of the others where they are the same, so that
// those of many parts are in memory once.
func (p *Part) Share(others []Named) {
	same := func(a, b File) bool { return a.Name == b.Name && bytes.Equal(a.Data, b.Data) }
	for _, o := range others {
		if slices.EqualFunc(o.Files, p.Files, same) {
			p.Files = o.Files
			return
		}
	}
}

// saidElsewhere reports whether a question has the value of a flag beside its flags: there
// it counts, not whether it is typed or the site file's.
func saidElsewhere(flag string) bool { return flag == "seed" || flag == "blocks" }

// differences says in what a question is not the other one.
func differences(a, b Question) (all []string) {
	differ := func(what string, x, y any) {
		if x != y {
			all = append(all, fmt.Sprintf("it is of %s %v, and not %v", what, x, y))
		}
	}
	differ("the command", a.Command, b.Command)
	all = append(all, otherFiles(a, b)...)
	differ("seed", a.Seed, b.Seed)
	differ("a question in", fmt.Sprint(a.Parts, " parts"), fmt.Sprint(b.Parts, " parts"))
	differ("a number of blocks of", a.Blocks, b.Blocks)
	differ("version", a.Version, b.Version)
	differ("a processor of the kind", a.Processor, b.Processor)
	for _, name := range namesOf(a.Flags, b.Flags) {
		if saidElsewhere(name) {
			continue
		}
		differ("a run", flagWords(a.Flags, name), flagWords(b.Flags, name))
	}
	return all
}

// otherFiles says which files of a question are not those of the other one.
func otherFiles(a, b Question) (all []string) {
	if !bytes.Equal(a.Text(), b.Text()) {
		return []string{fmt.Sprintf("the site file was another one (%s)", shown(a.Site))}
	}
	for i, f := range a.Files[1:] {
		if i+1 >= len(b.Files) || f.Name != b.Files[i+1].Name || !bytes.Equal(f.Data, b.Files[i+1].Data) {
			all = append(all, fmt.Sprintf("%s, which the site file names, was another one", shown(f.Name)))
		}
	}
	return all
}

// namesOf returns the names of flags of two lists, each once.
func namesOf(a, b []Flag) (names []string) {
	for _, f := range slices.Concat(a, b) {
		if !slices.Contains(names, f.Name) {
			names = append(names, f.Name)
		}
	}
	return names
}

// flagWords says which values a flag has.
func flagWords(all []Flag, name string) string {
	for _, f := range all {
		if f.Name == name {
			return "with " + strings.Join(f.arguments(), " ")
		}
	}
	return "without --" + name
}

// arguments returns a flag as it is typed.
func (f Flag) arguments() (words []string) {
	if f.Values == nil {
		return []string{"--" + f.Name}
	}
	for _, v := range f.Values {
		if strings.HasPrefix(v, "-") { // it is no flag of its own
			words = append(words, "--"+f.Name+"="+shellQuoted(v))
			continue
		}
		words = append(words, "--"+f.Name, shellQuoted(v))
	}
	return words
}

// missing says which parts there are not, and how to get them; "" where all are there.
func missing(q Question, byNumber map[int]Named) string {
	var lack []int
	for i := range q.Parts {
		if _, there := byNumber[i+1]; !there {
			lack = append(lack, i+1)
		}
	}
	switch len(lack) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("part %d of %d is missing; run: %s", lack[0], q.Parts, q.CommandLine(lack[0]))
	}
	return fmt.Sprintf("parts %s of %d are missing; run: %s, and so for each of them", ranges(lack), q.Parts, q.CommandLine(lack[0]))
}

// ranges writes ascending numbers as schedulers of arrays take them: "3,7,9-12".
func ranges(all []int) string {
	var words []string
	for i := 0; i < len(all); {
		end := i
		for end+1 < len(all) && all[end+1] == all[end]+1 {
			end++
		}
		word := strconv.Itoa(all[i])
		if end > i {
			word += "-" + strconv.Itoa(all[end])
		}
		words = append(words, word)
		i = end + 1
	}
	return strings.Join(words, ",")
}

// CommandLine returns the command line of a part.
func (q Question) CommandLine(part int) string {
	path := q.Site
	if strings.HasPrefix(path, "-") && path != "-" { // it is no flag
		path = "./" + path
	}
	words := []string{"arrayodds", q.Command, shellQuoted(path)}
	for _, f := range q.Flags {
		words = append(words, f.arguments()...)
	}
	return strings.Join(append(words, "--part", fmt.Sprintf("%d/%d", part, q.Parts)), " ")
}

// shellQuoted returns a word as a shell takes it, in quotes where it needs them. What
// would steer a terminal is written in octal, as the dollar quotes of POSIX 2024 have it.
func shellQuoted(word string) string {
	plain := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("-_./=,:+%@", r)
	}
	if word != "" && strings.IndexFunc(word, func(r rune) bool { return !plain(r) }) < 0 {
		return word
	}
	if shown(word) != word {
		var b strings.Builder
		for _, r := range word {
			switch {
			case r == '\'' || r == '\\':
				b.WriteString(`\` + string(r))
			case steers(r):
				for _, c := range []byte(string(r)) {
					fmt.Fprintf(&b, `\%03o`, c)
				}
			default:
				b.WriteRune(r)
			}
		}
		return "$'" + b.String() + "'"
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
