// The player: steps a slider along, by itself or by hand, and nothing moves before it is
// told to. The sliders of lives show a moment; all words stand in the data.
(function () {
  'use strict';

  var calm = window.matchMedia('(prefers-reduced-motion: reduce)');
  var calmPace = 1000; // milliseconds that a step takes at the least, for who asks for less motion
  var current;         // the player used last

  function player(bar) {
    var slider = document.getElementById(bar.dataset.of), button = bar.querySelector('[data-do=play]'), speed = bar.querySelector('select');
    var timer = 0;

    function pace() {
      var p = bar.dataset.pace / speed.value;
      return calm.matches ? Math.max(p, calmPace) : p;
    }
    function go(to) {
      slider.value = to;
      slider.dispatchEvent(new Event('input', { bubbles: true }));
    }
    function set(playing) {
      button.textContent = playing ? 'Pause' : 'Play';
      button.setAttribute('aria-pressed', String(playing));
    }
    function pause() {
      window.clearTimeout(timer);
      timer = 0;
      set(false);
    }
    function tick() {
      var at = Number(slider.value);
      if (at >= Number(slider.max)) return pause();
      go(at + 1);
      if (at + 1 >= Number(slider.max)) return pause();
      timer = window.setTimeout(tick, pace());
    }
    var it = {
      bar: bar,
      pause: pause,
      toggle: function () {
        if (timer) return pause();
        take();
        if (Number(slider.value) >= Number(slider.max)) go(0);
        set(true);
        timer = window.setTimeout(tick, pace());
      },
      step: function (by) {
        take();
        pause();
        go(Number(slider.value) + by);
      }
    };
    function take() {
      if (current && current !== it) current.pause();
      current = it;
    }
    button.addEventListener('click', it.toggle);
    bar.querySelector('[data-do=back]').addEventListener('click', function () { it.step(-1); });
    bar.querySelector('[data-do=step]').addEventListener('click', function () { it.step(1); });
    slider.addEventListener('pointerdown', function () { take(); pause(); });
    bar.hidden = false;
    return it;
  }

  // The moment of a life.
  function moment(life) {
    var slider = document.getElementById('life-' + life.number + '-event'), said = document.getElementById(slider.id + '-is');
    var stage = document.getElementById('moment-' + life.number), bays = [];
    var states = document.getElementById('states').content;

    life.groups.forEach(function (group) {
      var box = document.createElement('div'), list = document.createElement('ol');
      if (group.name) box.appendChild(document.createElement('small')).textContent = group.name;
      group.bays.forEach(function (name) {
        var bay = list.appendChild(document.createElement('li'));
        bay.appendChild(document.createElement('div')).textContent = name;
        bay.appendChild(document.createElement('div')); // its state
        bays.push(bay);
      });
      box.appendChild(list);
      stage.querySelector('.bays').appendChild(box);
    });

    function put(kind, text) { stage.querySelector(kind).textContent = text; }

    function mark(at) {
      life.marks.forEach(function (m, i) {
        var element = document.getElementById('drawing-' + m.drawing), series = {};
        if (!element) return;
        series[m.series] = at && at[i] !== null ? [{ value: [at[i], 0] }] : [];
        element.dispatchEvent(new CustomEvent('redraw', { detail: { x: {}, series: series } }));
      });
    }

    function show() {
      var place = Number(slider.value), event = life.events[place], text = (place + 1) + ' of ' + life.events.length;
      said.textContent = text;
      slider.setAttribute('aria-valuetext', text + ': ' + event.when);
      put('.at', event.when);
      put('.later', event.later);
      put('.what', event.what);
      put('.held', event.held);
      stage.classList.toggle('loss', event.loss);
      bays.forEach(function (bay, i) {
        var letter = event.states[i];
        if (bay.dataset.letter === letter) return;
        var form = states.querySelector('[data-letter=' + letter + ']'), box = bay.lastChild;
        bay.dataset.letter = letter;
        bay.title = form.title;
        box.textContent = '';
        box.appendChild(form.firstElementChild.cloneNode(true));
        box.appendChild(document.createTextNode(form.dataset.brief));
      });
    }

    slider.addEventListener('input', function () { show(); mark(life.events[slider.value].at); });
    // On paper nothing is told of one moment more than of another.
    window.addEventListener('beforeprint', function () { mark(null); });
    show();
    stage.hidden = false;
  }

  var motions = document.getElementById('motions');
  if (motions) JSON.parse(motions.textContent).forEach(moment);
  var all = [].map.call(document.querySelectorAll('.player'), player);
  if (!all.length) return;
  window.addEventListener('beforeprint', function () { all.forEach(function (p) { p.pause(); }); });

  // Space and the arrows serve the player on the screen of a projector, else the one used
  // last.
  document.addEventListener('keydown', function (event) {
    if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
    var tag = event.target.tagName, slid = tag === 'INPUT';
    var it = current;
    if (document.body.classList.contains('projector')) it = all.filter(function (p) { return p.bar.offsetParent; })[0];
    if (!it || tag === 'SELECT') return;
    if (event.key === ' ' && tag !== 'BUTTON' && tag !== 'SUMMARY') it.toggle();
    else if (event.key === 'ArrowRight' && !slid) it.step(1);
    else if (event.key === 'ArrowLeft' && !slid) it.step(-1);
    else return;
    event.preventDefault();
  });
})();
