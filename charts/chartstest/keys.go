package chartstest

import (
	"fmt"

	"arrayodds/array/thorough"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// stepAll steps through the points of all drawings that are shown, by keyboard, and says
// what is wrong. Of drawings that hold the same kinds of series, it steps through all
// points of the first, or of each with make thorough, and else through three and to the
// ends; %t is whether it is thorough.
const stepAll = `(() => {
  let stepped = 0;
  const thorough = %t, kinds = new Set(), wrong = [], spoken = document.querySelector('body > [role=status]');
  const press = (d, key) => d.dispatchEvent(new KeyboardEvent('keydown', { key: key, bubbles: true, cancelable: true }));
  document.querySelectorAll('.drawing').forEach(d => {
    if (!d.offsetParent) return;
    const say = text => wrong.push(d.id + ': ' + text);
    const title = d.closest('figure').querySelector('h3').textContent;
    if (!d.getAttribute('aria-label').startsWith(title + '. ')) say('is called ' + d.getAttribute('aria-label'));
    d.focus();
    if (document.activeElement !== d) return say('takes no focus');
    if (getComputedStyle(d).outlineStyle !== 'solid') say('the focus is not seen');
    const shown = () => { const tip = d.querySelector('.tip'); return tip && [...tip.children].map(x => x.textContent).join('; '); };
    let before = '', steps = 0, of = 0;
    const hint = document.getElementById(d.getAttribute('aria-describedby'));
    if (!hint) { // it has no points
      press(d, 'ArrowRight');
      if (spoken.textContent) say('nothing says which keys there are');
      return;
    }
    if (!/^Arrow keys/.test(hint.textContent)) say('is described as ' + hint.textContent);
    stepped++;
    const kind = echarts.getInstanceByDom(d).getOption().series.map(s => s.type + s.renderItem).filter((k, i, all) => all.indexOf(k) === i).sort().join();
    const most = thorough || !kinds.has(kind) ? 10000 : 3;
    kinds.add(kind);
    for (; steps < most; steps++) {
      press(d, 'ArrowRight');
      if (spoken.textContent === before) break;
      before = spoken.textContent;
      of = Number(/ \(\d+ of (\d+)\)$/.exec(before)[1]);
      if (!before.endsWith(' (' + (steps + 1) + ' of ' + of + ')')) say('step ' + (steps + 1) + ' is spoken as ' + before);
      if (shown() + before.slice(before.lastIndexOf(' (')) !== before) say('spoken is ' + before + ', shown is ' + shown());
    }
    if (most > 3 && steps !== of || steps < 1) say(steps + ' steps through ' + of + ' points');
    press(d, 'Home');
    if (!spoken.textContent.endsWith(' (1 of ' + of + ')')) say('Home is at ' + spoken.textContent);
    press(d, 'End');
    if (most > 3 && spoken.textContent !== before || !spoken.textContent.endsWith(' (' + of + ' of ' + of + ')')) say('End is at ' + spoken.textContent);
    press(d, 'Escape');
    if (document.activeElement === d || spoken.textContent) say('Escape does not leave');
  });
  if (!stepped) wrong.push('no drawing has points');
  return wrong.slice(0, 5).join('\n');
})()`

// CheckKeys holds the drawings that are shown against what they must be by keyboard:
// focused to be seen, named, and stepped through point by point with each tooltip shown
// and spoken.
func (b *Tab) CheckKeys() {
	b.t.Helper()
	b.Press(kb.Tab) // so that the browser shows the focus, as it does to who uses keys
	if wrong := b.Ask(fmt.Sprintf(stepAll, thorough.Asked())); wrong != "" {
		b.t.Errorf("by keyboard: %s", wrong)
	}
}

// Press presses a key as a reader would: a character, or one that package kb names.
func (b *Tab) Press(key string) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, chromedp.KeyEvent(key)); err != nil {
		b.t.Fatalf("pressing %q: %v", key, err)
	}
}

// Click clicks at a place of the window, in pixels.
func (b *Tab) Click(x, y float64) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, chromedp.MouseClickXY(x, y)); err != nil {
		b.t.Fatalf("clicking at %v, %v: %v", x, y, err)
	}
}
