package chartstest

// turnAll turns through the screens of a projector and says what is wrong with each, and
// then how many there were. The sizes of words are those of the style sheet, times what
// drawings are enlarged by.
const turnAll = `(() => {
  document.getElementById('project').click();
  const turned = document.getElementById('turned'), wrong = [], high = innerHeight;
  for (let n = 0; n < 100; n++) {
    const at = turned.textContent, by = getComputedStyle(document.body).getPropertyValue('--by');
    if (document.documentElement.scrollHeight > high) wrong.push(at + ' is ' + document.documentElement.scrollHeight + ' pixels high');
    const seen = [...document.querySelectorAll('main > *')].filter(e => e.offsetParent).length;
    if (seen !== 1) wrong.push(at + ' shows ' + seen + ' slides');
    document.querySelectorAll('.now .drawing').forEach(d => {
      if (!d.offsetParent) return;
      const sizes = [...d.querySelectorAll('svg text')].map(x => parseFloat(x.style.fontSize || getComputedStyle(x).fontSize) * by);
      if (!sizes.length || Math.min(...sizes) < 18) wrong.push(at + ': words of ' + d.id + ' are ' + Math.min(...sizes) + ' pixels high');
    });
    document.querySelector('[data-turn="1"]').click();
    if (turned.textContent === at) break;
  }
  const last = turned.textContent;
  document.getElementById('unproject').click();
  if (document.body.className || document.querySelector('.off, .now')) wrong.push('something is left of the projector');
  return [last].concat(wrong).join('; ');
})()`

// CheckProjector turns through the screens of a projector: each keeps within its window,
// shows one slide, and no drawing has words of less than 18 pixels. want is "13 of 13".
func (b *Tab) CheckProjector(want string) {
	b.t.Helper()
	if got := b.Ask(turnAll); got != want {
		b.t.Errorf("the projector: %s; want %s", got, want)
	}
}
