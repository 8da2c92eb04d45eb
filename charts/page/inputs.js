// What the pages of varied inputs and of inputs ranked draw beyond draw.js, which
// takes it up: ticks whose places and words stand in the options, and renderers
// named there. Each is given a data item:
//   mark     x: a dashed line over the whole height
//   numbered x, row, number, pixels down, pixels right: the number beside a place
//   joined   from, to, row, pixels down: a thin line
//   cell     left, right, bottom, top, signs: see map.go of package charts/vary
//   contour  x, y of all items, drawn as one line with the first and named by the
//            series; the third value of the first is the place of the name or -1
(function () {
  'use strict';

  var ink = '#22303a', muted = '#5a6872', paper = '#ffffff';
  var hatched = 1, absent = 2, none = 4, short = 8;

  function line(a, b, style) {
    return { type: 'line', silent: true, shape: { x1: a[0], y1: a[1], x2: b[0], y2: b[1] }, style: style };
  }

  function dark(colour) {
    var c = parseInt(colour.slice(1), 16);
    return 0.3 * (c >> 16) + 0.59 * (c >> 8 & 255) + 0.11 * (c & 255) < 130;
  }

  // Slanting lines over a rectangle, the more the larger it is.
  function hatching(x, y, w, h, style) {
    var out = [], apart = Math.max(5, Math.min(12, Math.min(w, h) / 2));
    for (var d = apart / 2; d < w + h; d += apart) {
      out.push(line([x + Math.max(0, d - h), y + Math.min(d, h)], [x + Math.min(d, w), y + Math.max(0, d - w)], style));
    }
    return out;
  }

  var renderers = {
    mark: function (params, api) {
      var x = api.coord([api.value(0), api.value(1)])[0], box = params.coordSys;
      return line([x, box.y], [x, box.y + box.height], { stroke: ink, lineWidth: 1.2, lineDash: [5, 4] });
    },
    numbered: function (params, api) {
      var at = api.coord([api.value(0), api.value(1)]);
      return { type: 'text', silent: true, style: { text: String(api.value(2)), x: at[0] + api.value(4), y: at[1] + api.value(3),
        verticalAlign: 'middle', fill: ink, stroke: paper, lineWidth: 2, font: 'bold 12px system-ui, sans-serif' } };
    },
    joined: function (params, api) {
      var a = api.coord([api.value(0), api.value(2)]), b = api.coord([api.value(1), api.value(2)]), down = api.value(3);
      return line([a[0], a[1] + down], [b[0], b[1] + down], { stroke: api.visual('color'), lineWidth: 1, opacity: 0.75 });
    },
    cell: function (params, api) {
      var a = api.coord([api.value(0), api.value(3)]), b = api.coord([api.value(1), api.value(2)]);
      var box = params.coordSys, signs = api.value(4), colour = api.visual('color');
      var x = Math.max(a[0], box.x), y = Math.max(a[1], box.y);
      var w = Math.min(b[0], box.x + box.width) - x, h = Math.min(b[1], box.y + box.height) - y;
      var style = { stroke: dark(colour) ? paper : ink, lineWidth: 0.7, opacity: 0.75, fill: 'none' };
      // Half a pixel over, so that no seam shows between cells.
      var parts = [{ type: 'rect', shape: { x: x, y: y, width: w + 0.5, height: h + 0.5 }, style: { fill: colour } }];
      if (signs & hatched) parts = parts.concat(hatching(x, y, w, h, style));
      if (signs & absent) parts.push(line([x + w * 0.3, y + h * 0.3], [x + w * 0.7, y + h * 0.7], style), line([x + w * 0.3, y + h * 0.7], [x + w * 0.7, y + h * 0.3], style));
      if (signs & none) parts.push(line([x + w * 0.35, y + h / 2], [x + w * 0.65, y + h / 2], style));
      if (signs & short) parts.push({ type: 'circle', silent: true, shape: { cx: x + w / 2, cy: y + h / 2, r: Math.min(4, w / 4, h / 4) }, style: Object.assign({}, style, { lineWidth: 1.2 }) });
      return { type: 'group', children: parts };
    },
    contour: function (params, api) {
      if (params.dataIndexInside !== 0) return;
      var points = [];
      for (var i = 0; i < params.dataInsideLength; i++) points.push(api.coord([api.value(0, i), api.value(1, i)]));
      var stroke = function (colour, width) {
        return { type: 'polyline', silent: true, shape: { points: points }, style: { stroke: colour, lineWidth: width, fill: 'none', lineJoin: 'round' } };
      };
      var parts = [stroke(paper, 3.4), stroke(ink, 1.3)];
      var at = points[api.value(2, 0)];
      if (at) {
        var box = params.coordSys, room = 40; // half the width of the words
        parts.push({ type: 'text', silent: true, z2: 10, style: { text: params.seriesName,
          x: Math.min(Math.max(at[0], box.x + room), box.x + box.width - room), y: Math.min(Math.max(at[1], box.y + 9), box.y + box.height - 9),
          align: 'center', verticalAlign: 'middle', fill: ink, stroke: paper, lineWidth: 4, font: '600 12px system-ui, sans-serif' } });
      }
      return { type: 'group', children: parts };
    }
  };

  renderers.numbered.beyond = true;

  // The places of ticks whose words keep clear of each other, from the one at 0
  // outward, or else from the first.
  function clear(axis, plot) {
    var at = axis.axisLabel.customValues, scale = plot / (axis.max - axis.min);
    var room = function (v) { return 6.6 * axis.axisLabel.formatter(v).length + 10; };
    var start = Math.max(0, at.indexOf(0)), kept = [at[start]];
    [1, -1].forEach(function (way) {
      for (var last = start, i = start + way; i >= 0 && i < at.length; i += way) {
        if (Math.abs(at[i] - at[last]) * scale < (room(at[i]) + room(at[last])) / 2) continue;
        kept.push(at[i]);
        last = i;
      }
    });
    return kept.sort(function (a, b) { return a - b; });
  }

  // Ticks where the options have them, with their words.
  function given(axis) {
    if (axis.type !== 'value' || !axis.data) return;
    var at = [], text = {};
    axis.data.forEach(function (t) { at.push(t.at); text[t.at] = t.text; });
    delete axis.data;
    axis.axisTick = Object.assign({}, axis.axisTick, { customValues: at });
    axis.axisLabel = Object.assign({}, axis.axisLabel, { customValues: at, formatter: function (v) { return text[v] || ''; } });
    axis.given = at.length;
  }

  window.ownDrawing = {
    renderers: renderers,
    axes: function (options) {
      options.xAxis.concat(options.yAxis).forEach(given);
    },
    // Names keep within the drawing, and words at ticks within their share of it.
    fit: function (o, grid, width) {
      var x = o.xAxis[0], plot = width - Number(grid.left) - Number(grid.right);
      x.nameTruncate = { maxWidth: plot };
      o.yAxis[0].nameTruncate = { maxWidth: width - 24 };
      // Rows named in two lines: underlines and the tops of letters keep apart.
      var y = o.yAxis[0];
      if (y.data && y.data.some(function (name) { return name.indexOf('\n') > 0; })) y.axisLabel = Object.assign({}, y.axisLabel, { lineHeight: 15 });
      if (x.given && !x.axisLabel.overflow) x.axisLabel = Object.assign({}, x.axisLabel, { customValues: clear(x, plot) });
      if (x.given && x.axisLabel.overflow) x.axisLabel = Object.assign({}, x.axisLabel, { width: Math.floor(plot / x.given) - 6 });
    }
  };
})();
