// The page of single lives: what it draws beyond draw.js, which takes it up, and
// its sliders, which do without drawings.
//
// Renderers are named in the options. Each is given a data item:
//   running, waiting, queued, rebuilding, down, defect   from, to, row
//   loss   x, row, number: an upright line, named at its top
//   mark   x, foot: a dotted upright line
(function () {
  'use strict';

  // On paper nothing can be opened: what is folded stands open there.
  var folded = [];
  window.addEventListener('beforeprint', function () {
    folded = [].filter.call(document.querySelectorAll('.life details'), function (d) { return !d.open; });
    folded.forEach(function (d) { d.open = true; });
  });
  window.addEventListener('afterprint', function () { folded.forEach(function (d) { d.open = false; }); });

  var paper = '#ffffff';
  var least = 2; // pixels that a span is wide at the least

  function rect(x, y, w, h, style) {
    return { type: 'rect', shape: { x: x, y: y, width: w, height: h }, style: style };
  }

  function line(x1, y1, x2, y2, style) {
    return { type: 'line', silent: true, shape: { x1: x1, y1: y1, x2: x2, y2: y2 }, style: style };
  }

  // The box of a span: as high as most of its row.
  function boxOf(api, share) {
    var from = api.coord([api.value(0), api.value(2)]), to = api.coord([api.value(1), api.value(2)]);
    var high = Math.max(3, Math.round(api.size([0, 1])[1] * share));
    return { x: from[0], y: from[1] - high / 2, w: Math.max(least, to[0] - from[0]), h: high };
  }

  function span(form) {
    return function (params, api) {
      var b = boxOf(api, 0.62), colour = api.visual('color');
      if (b.w <= 3) return rect(b.x, b.y, b.w, b.h, { fill: colour });
      return { type: 'group', children: form(b, colour) };
    };
  }

  function hollow(b, colour, width) {
    return rect(b.x + width / 2, b.y + width / 2, b.w - width, b.h - width, { fill: paper, stroke: colour, lineWidth: width });
  }

  var renderers = {
    running: function (params, api) {
      var b = boxOf(api, 0.24);
      return rect(b.x, b.y, b.w, b.h, { fill: api.visual('color') });
    },
    waiting: span(function (b, colour) { return [hollow(b, colour, 2)]; }),
    queued: span(function (b, colour) {
      return [hollow(b, colour, 2), line(b.x, b.y + b.h / 2, b.x + b.w, b.y + b.h / 2, { stroke: colour, lineWidth: 2, lineDash: [3, 2] })];
    }),
    rebuilding: span(function (b, colour) {
      return [hollow(b, colour, 1), { type: 'polygon', silent: true, shape: { points: [[b.x, b.y + b.h], [b.x + b.w, b.y], [b.x + b.w, b.y + b.h]] }, style: { fill: colour } }];
    }),
    down: span(function (b, colour) {
      var parts = [rect(b.x, b.y, b.w, b.h, { fill: colour })];
      for (var x = b.x + 6; x < b.x + b.w - 2; x += 6) parts.push(line(x, b.y, x, b.y + b.h, { stroke: paper, lineWidth: 1.5 }));
      return parts;
    }),
    defect: function (params, api) {
      var row = api.size([0, 1])[1], b = boxOf(api, 0.16);
      return rect(b.x, b.y - row * 0.2, b.w, b.h, { fill: api.visual('color') });
    },
    loss: function (params, api) {
      var box = params.coordSys, x = api.coord([api.value(0), 0])[0], colour = api.visual('color');
      var parts = [line(x, box.y, x, box.y + box.height, { stroke: colour, lineWidth: 2 })];
      var named = params.context.named; // where the last name ends
      var right = x > box.x + box.width - 60, from = right ? x - 56 : x + 5;
      if (named === undefined || from > named) {
        params.context.named = from + 52;
        parts.push({ type: 'text', silent: true, z2: 10, style: { text: 'loss ' + api.value(2), x: right ? x - 5 : x + 5, y: box.y + 3, align: right ? 'right' : 'left',
          fill: colour, stroke: paper, lineWidth: 3, font: '600 12px system-ui, sans-serif' } });
      }
      return { type: 'group', children: parts };
    },
    mark: function (params, api) {
      var box = params.coordSys, x = api.coord([api.value(0), api.value(1)])[0];
      return line(x, box.y, x, box.y + box.height, { stroke: api.visual('color'), lineWidth: 1.5, lineDash: [2, 3] });
    }
  };

  window.ownDrawing = {
    renderers: renderers,
    axes: function () {},
    fit: function (o) {
      // Rows keep their names in their middle.
      if (o.yAxis[0].type === 'category') delete o.yAxis[0].axisLabel.verticalAlignMinLabel;
      // An end of the scale that is no step has no words.
      var x = o.xAxis[0];
      if (x.maxInterval) x.axisLabel = Object.assign({}, x.axisLabel, { showMinLabel: x.min % x.maxInterval === 0, showMaxLabel: x.max % x.maxInterval === 0 });
    }
  };

  // The slow motion. All figures and words stand in the data.
  var source = document.getElementById('slow-data');
  if (!source) return;
  var data = JSON.parse(source.textContent);
  var size = document.getElementById('slow-size'), wait = document.getElementById('slow-wait'), hour = document.getElementById('slow-hour');

  function say(slider, text) {
    slider.setAttribute('aria-valuetext', text);
    document.getElementById(slider.id + '-is').textContent = text;
  }

  function fill(list, texts) {
    document.querySelectorAll('#' + list + ' dd').forEach(function (dd, i) { dd.textContent = texts[i]; });
  }

  function run() { return data.runs[wait.value * data.sizes.length + Number(size.value)]; }

  function show() {
    var r = run(), step = Number(hour.value);
    say(size, data.sizes[size.value]);
    say(wait, data.waits[wait.value]);
    say(hour, r.texts[step][0]);
    fill('slow-whole', r.whole);
    fill('slow-now', r.texts[step]);
    data.parts.forEach(function (part) {
      var element = document.getElementById('drawing-' + part.drawing);
      if (!element) return;
      var series = {};
      part.lines.forEach(function (from, place) { series[place] = r.lines[from] || []; });
      series[part.mark] = [{ value: [r.hours[step], part.foot] }];
      element.dispatchEvent(new CustomEvent('redraw', { detail: { x: r.axis, series: series } }));
    });
  }

  // Another outage is looked at in the hour nearest to the one before.
  function move() {
    var r = run(), best = 0;
    r.hours.forEach(function (h, i) { if (Math.abs(h - at) < Math.abs(r.hours[best] - at)) best = i; });
    hour.max = r.hours.length - 1;
    hour.value = best;
    show();
  }

  function pick(s, w, h) {
    size.value = s;
    wait.value = w;
    at = h;
    move();
  }

  var own = data.runs[data.ownWait * data.sizes.length + data.ownSize].hours[data.at];
  var at = own;
  size.addEventListener('input', move);
  wait.addEventListener('input', move);
  hour.addEventListener('input', function () { at = run().hours[hour.value]; show(); });
  // On paper stands the choice's own case.
  var chosen;
  window.addEventListener('beforeprint', function () { chosen = [size.value, wait.value, at]; pick(data.ownSize, data.ownWait, own); });
  window.addEventListener('afterprint', function () { pick.apply(null, chosen); });
})();
