// The lesson: a prediction opens the answer. All words stand in the data.
(function () {
  'use strict';

  // The scale widens to hold a prediction, so words at points turn to where
  // there is room.
  window.ownDrawing = {
    axes: function () {},
    fit: function (o) {
      var x = o.xAxis[0], middle = (x.min + x.max) / 2;
      o.series.forEach(function (s) {
        s.data.forEach(function (item) { if (item.label) item.label.align = item.value[0] > middle ? 'right' : 'left'; });
      });
    }
  };

  var data = JSON.parse(document.getElementById('lesson-data').textContent);

  function question(form) {
    var number = form.dataset.question, of = data.questions[number - 1];
    var slider = document.getElementById('guess-' + number), said = document.getElementById('guess-' + number + '-is');
    var button = form.querySelector('button'), answer = document.getElementById('answer-' + number);
    var mine = answer.querySelector('.mine'), open = false;

    function compare() {
      var at = Number(slider.value);
      mine.hidden = false;
      mine.querySelector('strong').textContent = data.guesses[at];
      mine.querySelector('span').textContent = of.verdicts[at];
      var drawing = document.getElementById('drawing-lesson-' + number);
      if (!drawing || !of.places) return;
      var place = of.places[at], series = {};
      series[of.series] = [place.point];
      drawing.dispatchEvent(new CustomEvent('redraw', { detail: { series: series,
        x: { min: place.min, max: place.max, minInterval: place.minInterval, maxInterval: place.maxInterval } } }));
    }

    function predict() {
      var text = data.guesses[slider.value];
      said.textContent = text;
      slider.setAttribute('aria-valuetext', text);
      button.disabled = false;
      if (open) compare();
    }

    slider.addEventListener('input', predict);
    slider.addEventListener('pointerup', predict); // a prediction of no difference leaves it where it is
    form.addEventListener('submit', function (event) {
      event.preventDefault();
      open = true;
      answer.classList.add('open');
      button.setAttribute('aria-expanded', 'true');
      compare();
      document.getElementById('said-' + number).textContent = of.said + ' ' + mine.textContent;
      window.dispatchEvent(new Event('turn')); // for the projector
    });
  }

  var forms = [].slice.call(document.querySelectorAll('.predict'));
  forms.forEach(question);

  // On paper the answers stand together, on a page of their own.
  var last = document.getElementById('answers');
  function answers() { return [].slice.call(document.querySelectorAll('.answer')); }
  window.addEventListener('beforeprint', function () { answers().forEach(function (a) { last.appendChild(a); }); });
  window.addEventListener('afterprint', function () {
    answers().forEach(function (a) { document.getElementById('question-' + a.id.replace('answer-', '')).parentNode.appendChild(a); });
  });
})();
