// Draws the charts from the options that stand in the page as data. What is
// not data is added here: tick words, whiskers, tooltips and narrow layouts.
(function () {
  'use strict';

  // Until here what a drawing shows stands in words in its place.
  document.documentElement.classList.add('scripted');

  var narrow = 560;      // pixels; below it names get less room
  var printed = 680;     // pixels; the width of an A4 page between its margins
  var thin = '\u202f';   // groups digits

  function grouped(n) {
    return String(n).replace(/\B(?=(\d{3})+(?!\d))/g, thin);
  }

  function raised(n) {
    return String(n).replace(/./g, function (d) {
      return d === '-' ? '⁻' : '⁰¹²³⁴⁵⁶⁷⁸⁹'[d];
    });
  }

  // Words for the ticks of an axis, by the name in the options.
  var words = {
    odds: function (v) { // v is a power of ten
      if (v === 0) return 'certain';
      var e = -v;
      if (e !== Math.round(e)) return '';
      if (e < 6) return '1 in\n' + grouped(Math.pow(10, e));
      if (e >= 15) return '1 in\n10' + raised(e);
      return '1 in\n' + Math.pow(10, e % 3) + ' ' + { 2: 'million', 3: 'billion', 4: 'trillion' }[Math.floor(e / 3)];
    },
    percent: function (v) { return parseFloat((100 * v).toPrecision(6)) + ' %'; },
    money: function (v) { return grouped(v); },
    signed: function (v) { return v > 0 ? '+' + v : String(v).replace('-', '−'); },
    plain: function (v) { return String(v); }
  };

  // Whiskers and bands, by the name in the options. Each is given a data item:
  //   across   low, high, row, pixels down, 1 where the low end is open
  //   upright  x, low, high, 1 where the low end is open
  //   band     x, low, high of all items, drawn as one shape with the first
  var renderers = {
    across: function (params, api) {
      var down = api.value(3);
      var low = api.coord([api.value(0), api.value(2)]);
      var high = api.coord([api.value(1), api.value(2)]);
      return whisker([low[0], low[1] + down], [high[0], high[1] + down], 0, 5, api.value(4) === 1, api.visual('color'));
    },
    upright: function (params, api) {
      var low = api.coord([api.value(0), api.value(1)]);
      var high = api.coord([api.value(0), api.value(2)]);
      return whisker(low, high, 5, 0, api.value(3) === 1, api.visual('color'));
    },
    band: function (params, api) {
      if (params.dataIndexInside !== 0) return;
      var there = [], back = [];
      for (var i = 0; i < params.dataInsideLength; i++) {
        there.push(api.coord([api.value(0, i), api.value(2, i)]));
        back.unshift(api.coord([api.value(0, i), api.value(1, i)]));
      }
      return { type: 'polygon', silent: true, shape: { points: there.concat(back) },
        style: { fill: api.visual('color'), opacity: 0.18 } };
    }
  };

  // What a page draws beyond this stands in a script of its own, before this one.
  var own = window.ownDrawing || { axes: function () {}, fit: function () {} };
  Object.assign(renderers, own.renderers);

  // A line from low to high with a cap at each end that is not open.
  function whisker(low, high, capX, capY, open, colour) {
    var style = { stroke: colour, lineWidth: 2, fill: 'none' };
    function line(a, b, dash) {
      return { type: 'line', shape: { x1: a[0], y1: a[1], x2: b[0], y2: b[1] },
        style: dash ? Object.assign({ lineDash: [2, 3] }, style) : style };
    }
    function cap(at) {
      return line([at[0] - capX, at[1] - capY], [at[0] + capX, at[1] + capY]);
    }
    var parts = [line(low, high, open), cap(high)];
    if (!open) parts.push(cap(low));
    return { type: 'group', children: parts };
  }

  // A tooltip of text nodes: labels are never read as markup.
  function tip(params) {
    var lines = params.data && params.data.tip;
    if (!lines) return '';
    var box = document.createElement('div');
    box.className = 'tip';
    lines.forEach(function (text) {
      var line = document.createElement('div');
      line.textContent = text;
      box.appendChild(line);
    });
    return box;
  }

  // Words on one line, for the ticks of an upright axis that has room.
  function lined(f) {
    return function (v) { return f(v).replace('\n', ' '); };
  }

  function axisWords(axis) {
    axis.forEach(function (a) {
      var name = a.axisLabel && a.axisLabel.formatter;
      if (!name) return;
      a.axisLabel.formatter = words[name];
      // Of two lines. The chart script takes the width of an ideograph for their height,
      // which is next to nothing in a font that has none.
      if (name === 'odds') a.axisLabel.lineHeight = 13;
    });
  }

  // Cuts a name to so many letters, but keeps what it ends with in brackets.
  function cut(name, letters) {
    if (name.length <= letters) return name;
    var end = / \(falls short\)$/.test(name) ? ' (falls short)' : '';
    return name.slice(0, Math.max(8, letters - end.length - 1)) + '…' + end;
  }

  // Fits options to a width: names of rows get less room on a narrow page, and
  // ticks are thinned until their words fit.
  // On paper rows are lower, and what lies apart in a row moves together.
  function fit(options, width, now, rows, squeeze) {
    var o = Object.assign({}, options);
    var grid = Object.assign({}, options.grid[0]);
    o.xAxis = options.xAxis.map(function (a) { return Object.assign({}, a); });
    o.yAxis = options.yAxis.map(function (a) { return Object.assign({}, a); });
    if (rows) {
      var room = width < narrow ? Math.round(width * 0.36) : Math.min(270, Math.round(width * 0.36));
      grid.left = room + 14;
      var size = width < narrow ? 12 : 13;
      var names = o.yAxis[0].data;
      // As many letters as the lines of this row hold, the last one not full.
      var row = (now - 84) / names.length;
      var letters = Math.floor(room / (0.55 * size)) * Math.max(1, Math.floor((row - 6) / (size + 1)) - 0.3);
      o.yAxis[0].data = names.map(function (n) { return cut(n, letters); });
      o.yAxis[0].axisLabel = Object.assign({}, o.yAxis[0].axisLabel, { width: room, fontSize: size, interval: 0 });
    }
    if (!rows && width >= narrow && o.yAxis[0].axisLabel.formatter === words.odds) {
      grid.left = 124;
      o.yAxis[0].axisLabel = Object.assign({}, o.yAxis[0].axisLabel, { formatter: lined(words.odds) });
    }
    if (!rows) o.yAxis[0].axisLabel = Object.assign({}, o.yAxis[0].axisLabel, { verticalAlignMinLabel: 'bottom' });
    o.textStyle = { fontFamily: 'system-ui, sans-serif' };
    var x = o.xAxis[0];
    x.nameTextStyle = { color: '#5a6872', fontSize: 12 };
    o.yAxis[0].nameTextStyle = { color: '#5a6872', fontSize: 12, align: 'left', padding: [0, 0, 0, -Number(grid.left) + 8] };
    if (x.maxInterval) {
      var plot = width - Number(grid.left) - Number(grid.right);
      var step = x.maxInterval;
      while ((x.max - x.min) / step > 1 && plot * step / (x.max - x.min) < 72) step += x.maxInterval;
      // The low end keeps its place; where no step falls on it, it has no words.
      if ((x.max - x.min) % step) x.axisLabel = Object.assign({}, x.axisLabel, { showMinLabel: false });
      x.minInterval = x.maxInterval = step;
    } else if (x.axisLabel.formatter === words.money) {
      x.boundaryGap = ['10%', '6%'];
      x.splitNumber = Math.max(2, Math.floor(width / 130));
    }
    own.fit(o, grid, width);
    o.grid = [grid];
    if (rows && squeeze !== 1) o.series = options.series.map(function (s) { return squeezed(s, squeeze); });
    return o;
  }

  // A halo around a label is a second text in a PDF.
  function withoutHalos(series) {
    return Object.assign({}, series, { data: (series.data || []).map(function (item) {
      if (!item || !item.label) return item;
      return Object.assign({}, item, { label: Object.assign({}, item.label, { textBorderWidth: 0 }) });
    }) });
  }

  function squeezed(series, by) {
    return Object.assign({}, series, { data: series.data.map(function (item) {
      var copy = Object.assign({}, item);
      if (item.symbolOffset) copy.symbolOffset = [item.symbolOffset[0], item.symbolOffset[1] * by];
      if (series.type === 'custom') {
        copy.value = item.value.slice();
        copy.value[3] *= by;
      }
      return copy;
    }) });
  }

  // Moves the numbers beside points apart where they would cover each other.
  function spread(chart, series, height) {
    var apart = 13, beside = 18; // pixels: of a line of text, and that columns of them keep
    var labels = [];
    var copies = series.map(function (s) {
      if (s.type !== 'scatter') return {};
      return { data: s.data.map(function (item) {
        if (!item.label) return item;
        var copy = Object.assign({}, item, { label: Object.assign({}, item.label) });
        var at = chart.convertToPixel({ xAxisIndex: 0, yAxisIndex: 0 }, item.value);
        labels.push({ x: at[0], y: at[1], to: at[1], label: copy.label });
        return copy;
      }) };
    });
    labels.sort(function (a, b) { return a.y - b.y; });
    labels.forEach(function (l, i) {
      labels.slice(0, i).forEach(function (above) {
        if (Math.abs(l.x - above.x) < beside) l.to = Math.max(l.to, above.to + apart);
      });
      l.to = Math.min(l.to, height - apart);
      l.label.offset = [0, l.to - l.y];
    });
    chart.setOption({ series: copies });
  }

  var drawings = [];

  function draw(element) {
    var options = JSON.parse(document.getElementById(element.id.replace('drawing-', 'options-')).textContent);
    axisWords(options.xAxis);
    axisWords(options.yAxis);
    own.axes(options);
    options.tooltip.formatter = tip;
    options.tooltip.confine = true;
    options.series.forEach(function (s) {
      if (s.type === 'custom') {
        s.renderItem = renderers[s.renderItem];
        s.clip = !s.renderItem.beyond; // words may stand beside the plot
        s.z = s.renderItem === renderers.band ? 1 : 2;
      }
      if (s.type === 'scatter') { s.z = 4; s.clip = false; }
    });
    var chart;
    var rows = element.parentNode.classList.contains('rows');
    var size = '', height = parseFloat(element.style.height);
    var drawing = {
      set: function (width, now) {
        if (!width) return; // hidden as yet
        element.style.height = now + 'px';
        if (width + 'x' + now === size) return;
        size = width + 'x' + now;
        if (chart) chart.resize({ width: width, height: now });
        else chart = echarts.init(element, null, { renderer: 'svg', width: width, height: now });
        var fitted = fit(options, width, now, rows, Math.min(1, (now - 84) / (height - 84)));
        if (width === printed) fitted.series = fitted.series.map(withoutHalos);
        chart.setOption(fitted, { notMerge: true });
        if (!rows) spread(chart, fitted.series, now);
      },
      screen: function () { this.set(element.clientWidth, Number(element.dataset.room) || height); }, // the projector gives room
      paper: function () { this.set(printed, Number(element.dataset.print)); }
    };
    drawings.push(drawing);
    // A page's script may give a drawing another horizontal scale and other
    // data, by the place of the series.
    element.addEventListener('redraw', function (event) {
      var now = size.split('x');
      Object.assign(options.xAxis[0], event.detail.x);
      Object.keys(event.detail.series).forEach(function (place) { options.series[place].data = event.detail.series[place]; });
      size = '';
      if (chart) drawing.set(Number(now[0]), Number(now[1]));
      else drawing.screen();
    });
  }

  document.querySelectorAll('.drawing').forEach(draw);
  function all(medium) {
    return function () { drawings.forEach(function (d) { d[medium](); }); };
  }
  all('screen')();
  window.addEventListener('resize', all('screen'));
  // What is folded on a screen is whole on paper.
  var folded = [];
  window.addEventListener('beforeprint', function () {
    folded = Array.prototype.slice.call(document.querySelectorAll('details.fold:not([open])'));
    folded.forEach(function (d) { d.open = true; });
  });
  window.addEventListener('afterprint', function () { folded.forEach(function (d) { d.open = false; }); });
  window.addEventListener('beforeprint', all('paper'));
  window.addEventListener('afterprint', all('screen'));
})();
