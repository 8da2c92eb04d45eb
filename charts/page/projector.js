// The projector: shows one screen of the page at a time. A screen is an element that
// has data-slide, or one of its parts: where elements in it have data-part, those of
// one name are seen at a time, and what has none always. An address that ends in
// #projector opens the page so, #projector-3 at the third screen.
(function () {
  'use strict';

  var width = 1280, height = 720; // pixels, at which the sizes of the style sheet hold
  var larger = 1.5;               // than on the page is what is drawn, so that 12 pixels are 18
  var least = 150;                // pixels that a drawing is high, before that
  var at = 0, was = 0;
  var bar = document.querySelector('.turning'), offer = document.querySelector('.project');

  function on() { return document.body.classList.contains('projector'); }

  // What is behind a prediction is no screen before that.
  function closed(element) {
    var answer = element.closest('.answer');
    return answer && !answer.classList.contains('open');
  }

  function screens() {
    var all = [];
    document.querySelectorAll('[data-slide]').forEach(function (slide) {
      var names = [];
      slide.querySelectorAll('[data-part]').forEach(function (e) {
        if (closed(e)) return;
        e.dataset.part.split(' ').forEach(function (name) { if (names.indexOf(name) < 0) names.push(name); });
      });
      if (!names.length) names.push('');
      names.forEach(function (name) { all.push({ slide: slide, part: name }); });
    });
    return all;
  }

  function clear() {
    document.querySelectorAll('.now').forEach(function (e) { e.classList.remove('now'); });
    document.querySelectorAll('.off').forEach(function (e) { e.classList.remove('off'); });
  }

  // Drawings share what the words leave of the screen.
  function fill(slide) {
    var by = larger * Math.max(1, Math.min(innerWidth / width, innerHeight / height));
    document.body.style.setProperty('--by', by);
    var drawings = [].filter.call(slide.querySelectorAll('.drawing'), function (d) { return d.offsetParent; });
    drawings.forEach(function (d) { d.style.height = 0; });
    slide.style.minHeight = 0;
    var room = (innerHeight - slide.offsetHeight) / by / Math.max(1, drawings.length);
    slide.style.minHeight = '';
    drawings.forEach(function (d) { d.dataset.room = Math.max(least, Math.floor(room)); });
  }

  function show(to) {
    var all = screens();
    at = Math.min(Math.max(to, 0), all.length - 1);
    var now = all[at];
    clear();
    now.slide.classList.add('now');
    now.slide.querySelectorAll('[data-part]').forEach(function (e) {
      e.classList.toggle('off', e.dataset.part.split(' ').indexOf(now.part) < 0);
    });
    document.getElementById('turned').textContent = (at + 1) + ' of ' + all.length;
    fill(now.slide);
    dispatchEvent(new Event('resize')); // draws anew
    scrollTo(0, 0);
    history.replaceState(null, '', '#projector-' + (at + 1));
  }

  function open(to) {
    was = scrollY;
    document.body.classList.add('projector');
    bar.hidden = false;
    show(to);
  }

  function leave() {
    document.body.classList.remove('projector');
    bar.hidden = true;
    clear();
    document.querySelectorAll('.drawing').forEach(function (d) { delete d.dataset.room; });
    history.replaceState(null, '', location.pathname + location.search);
    dispatchEvent(new Event('resize'));
    scrollTo(0, was);
  }

  function follow() {
    var m = /^#projector(?:-(\d+))?$/.exec(location.hash);
    if (m) open(m[1] ? m[1] - 1 : 0);
    else if (on()) leave();
  }

  offer.hidden = false;
  document.getElementById('project').addEventListener('click', function () { open(0); });
  document.getElementById('unproject').addEventListener('click', leave);
  bar.querySelectorAll('[data-turn]').forEach(function (b) {
    b.addEventListener('click', function () { show(at + Number(b.dataset.turn)); });
  });
  // The page says when there is another screen behind this one, and it is to be seen.
  window.addEventListener('turn', function () { if (on()) show(at + 1); });
  window.addEventListener('hashchange', follow);

  document.addEventListener('keydown', function (event) {
    if (!on() || event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
    var by = { PageDown: 1, PageUp: -1, ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (event.key === 'Escape') leave();
    else if (!by || /^(INPUT|SELECT)$/.test(event.target.tagName) && /^Arrow/.test(event.key)) return;
    else show(at + by);
    event.preventDefault();
  });

  // On paper is the whole page; another window has other room.
  var printed = false;
  window.addEventListener('beforeprint', function () { printed = on(); if (printed) { document.body.classList.remove('projector'); clear(); } });
  window.addEventListener('afterprint', function () { if (printed) { document.body.classList.add('projector'); show(at); } });
  window.addEventListener('resize', function (event) { if (on() && event.isTrusted) show(at); });

  follow();
})();
