// Drawings by keyboard: each can be focused, arrows, Home and End step through its
// points with their tooltips, which are spoken too, and Escape leaves. Behind draw.js.
(function () {
  'use strict';

  function heard(text) {
    var p = document.createElement('p');
    p.className = 'heard';
    p.textContent = text;
    return document.body.appendChild(p);
  }

  var hint = heard('Arrow keys step through the points of this drawing, Escape leaves it.');
  hint.id = 'by-keys';
  hint.hidden = true; // only drawings refer to it
  var spoken = heard('');
  spoken.setAttribute('role', 'status');
  spoken.setAttribute('aria-live', 'polite');

  // The points that have something to say, as they are drawn now, each text once.
  function points(chart) {
    var all = [], said = Object.create(null);
    chart.getOption().series.forEach(function (series, i) {
      (series.data || []).forEach(function (item, j) {
        var text = item && item.tip && item.tip.join('; ');
        if (!text || said[text]) return;
        said[text] = true;
        all.push({ series: i, item: j, text: text });
      });
    });
    return all;
  }

  document.querySelectorAll('.drawing').forEach(function (drawing) {
    var at = -1;         // the point whose tooltip is shown
    var reached = false; // by keyboard: after a click the arrows are the page's
    drawing.tabIndex = 0;
    // Some have no point that says more than the drawing.
    if (document.getElementById(drawing.id.replace('drawing-', 'options-')).textContent.indexOf('"tip"') >= 0) drawing.setAttribute('aria-describedby', hint.id);

    function leave() {
      if (at < 0) return;
      at = -1;
      spoken.textContent = '';
      echarts.getInstanceByDom(drawing).dispatchAction({ type: 'hideTip' });
    }

    drawing.addEventListener('focus', function () { reached = drawing.matches(':focus-visible'); });
    drawing.addEventListener('blur', leave);
    drawing.addEventListener('keydown', function (event) {
      if (!reached || event.altKey || event.ctrlKey || event.metaKey) return;
      if (event.key === 'Escape' && at >= 0) drawing.blur();
      else {
        var chart = echarts.getInstanceByDom(drawing), all = points(chart), last = all.length - 1;
        var to = { ArrowRight: at + 1, ArrowDown: at + 1, ArrowLeft: at - 1, ArrowUp: at - 1, Home: 0, End: last }[event.key];
        if (to === undefined || last < 0) return;
        at = Math.max(0, Math.min(to, last));
        chart.dispatchAction({ type: 'showTip', seriesIndex: all[at].series, dataIndex: all[at].item });
        spoken.textContent = all[at].text + ' (' + (at + 1) + ' of ' + all.length + ')';
      }
      event.preventDefault();
    });
  });
})();
