package chartstest

import "testing"

// What a browser would fetch is found, however it is written, and what it would not is let
// be.
func TestLoads(t *testing.T) {
	t.Parallel()
	for _, text := range []string{
		`<img src="https://a.example/b.png">`, `<a href = ' //a.example/'>`, `<form ACTION=HTTP://a.example>`, `<video poster=//a.example/p>`,
		`<img srcset="http://a.example 2x">`, `background: URL( "https://a.example/b.png")`, `url(//a.example/c)`, "// a remark\n@IMPORT 'x.css';",
		`// two remarks // and <script src="//a.example"`,
	} {
		if loads(text) == "" {
			t.Errorf("%s is said to load nothing", text)
		}
	}
	for _, text := range []string{"// a remark", `see https://a.example`, `xmlns="http://www.w3.org/2000/svg"`, `<a href="#top">x</a> // and so on`, "", "/"} {
		if found := loads(text); found != "" {
			t.Errorf("%s is said to load %s", text, found)
		}
	}
}
