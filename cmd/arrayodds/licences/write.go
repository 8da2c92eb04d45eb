package licences

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

// Write writes which works there are and after them the texts of their licences, each
// text once.
func Write(w io.Writer, all []Work) error {
	out := bufio.NewWriter(w)
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, of := range all {
		fmt.Fprintf(table, "%s\t%s\t%s\tin: %s\n", of.Name, of.Version, strings.Join(of.Licences, ", "), joined(of.Parts))
	}
	if err := table.Flush(); err != nil {
		return err
	}
	for _, t := range distinct(all) {
		rule := strings.Repeat("-", 72)
		fmt.Fprintf(out, "\n%s\n%s\n%s\n\n%s\n", rule, strings.Join(t.of, "\n"), rule, strings.Trim(t.text, "\r\n"))
	}
	return out.Flush()
}

func joined(parts []Part) string {
	var all []string
	for _, p := range parts {
		all = append(all, string(p))
	}
	return strings.Join(all, ", ")
}

// shared is a text and the files that have it.
type shared struct {
	of   []string
	text string
}

// distinct returns every text once, in the order of the works.
func distinct(all []Work) []*shared {
	var texts []*shared
	at := map[string]*shared{}
	for _, of := range all {
		for _, t := range of.Texts {
			if at[t.Text] == nil {
				at[t.Text] = &shared{text: t.Text}
				texts = append(texts, at[t.Text])
			}
			name := strings.Join(strings.Fields(of.Name+" "+of.Version), " ")
			at[t.Text].of = append(at[t.Text].of, name+": "+t.File)
		}
	}
	return texts
}
