package chartstest

import "fmt"

// CheckProjector turns through the screens of a projector: each keeps within its window,
// and no drawing has words of less than 18 pixels.
func (b *Tab) CheckProjector(screens int) {
	b.t.Helper()
	b.Ask(`document.getElementById('project').click()`)
	for range screens {
		if got := b.Ask(`document.documentElement.scrollHeight <= innerHeight && [...document.querySelectorAll('main > *')].filter(e => e.offsetParent).length === 1`); got != "true" {
			b.t.Errorf("a screen is no screen: %s", b.Ask(`[document.getElementById('turned').textContent, document.documentElement.scrollHeight, innerHeight]`))
		}
		if got := b.Ask(`Math.min(99, ...[...document.querySelectorAll('.now svg text')].filter(x => x.getBoundingClientRect().width).map(x => parseFloat(getComputedStyle(x).fontSize) * getComputedStyle(document.body).getPropertyValue('--by')))`); !(len(got) == 2 && got >= "18") {
			b.t.Errorf("on screen %s words of a drawing are %s pixels high", b.Ask(`document.getElementById('turned').textContent`), got)
		}
		b.Ask(`document.querySelector('[data-turn="1"]').click()`)
	}
	if got, want := b.Ask(`document.getElementById('turned').textContent`), fmt.Sprintf("%[1]d of %[1]d", screens); got != want {
		b.t.Errorf("the last screen is %s, want %s", got, want)
	}
	b.Ask(`document.getElementById('unproject').click()`)
	if got := b.Ask(`document.body.className + document.querySelectorAll('.off, .now').length`); got != "0" {
		b.t.Errorf("after the projector is left %s", got)
	}
}
