// This script adds what plain pages cannot do: marks that wait in the phone while the
// network is away, and a board that updates itself. Every page works without it.
(function () {
  'use strict';
  if (!window.fetch || !window.FormData || !window.URLSearchParams || !window.localStorage) { return; }

  var QUEUE = 'waiting', TOLD = 'told';
  var main = document.getElementById('main'), box = document.getElementById('waiting');
  var token = document.body.getAttribute('data-token');
  var words = box.dataset; // the texts of this script, in the page's language
  var sending = false, out = false; // out: this phone must join again

  function load(name) {
    try { return JSON.parse(localStorage.getItem(name)) || []; } catch (e) { return []; }
  }
  function store(name, list) { localStorage.setItem(name, JSON.stringify(list)); }

  // newID returns a UUID (RFC 9562, version 4). Browsers have randomUUID only over TLS.
  function newID() {
    if (window.crypto.randomUUID) { return crypto.randomUUID(); }
    var b = crypto.getRandomValues(new Uint8Array(16));
    b[6] = b[6] & 15 | 64;
    b[8] = b[8] & 63 | 128;
    var hex = '';
    for (var i = 0; i < 16; i++) { hex += (b[i] + 256).toString(16).slice(1); }
    return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
  }

  function show() {
    var queue = load(QUEUE), told = load(TOLD);
    box.textContent = '';
    if (queue.length) { line(queue.length === 1 ? words.single : words.many.replace('%d', queue.length)); }
    if (queue.length && out) { link('/join', words.join); }
    told.forEach(function (t) { line(t.text || t, t.lang); });
    if (told.length) {
      var b = document.createElement('button');
      b.type = 'button';
      b.textContent = words.read;
      b.addEventListener('click', function () { store(TOLD, []); show(); });
      box.appendChild(b);
    }
  }

  // line shows a text. A text from before a change of language keeps its own language.
  function line(text, lang) {
    var p = document.createElement('p');
    p.textContent = text;
    if (lang) { p.lang = lang; }
    box.appendChild(p);
  }

  function link(to, text) {
    var a = document.createElement('a');
    a.href = to;
    a.className = 'button';
    a.textContent = text;
    box.appendChild(a);
  }

  function post(url, body, accept) {
    return fetch(url, {
      method: 'POST', body: body, credentials: 'same-origin',
      headers: { 'Content-Type': 'application/x-www-form-urlencoded', 'Accept': accept }
    });
  }

  // replace shows the main part of another page and moves the focus to its answer.
  function replace(html) {
    var page = new DOMParser().parseFromString(html, 'text/html');
    var fresh = page.getElementById('main');
    if (!fresh) { location.reload(); return; }
    main.innerHTML = fresh.innerHTML;
    document.title = page.title;
    token = page.body.getAttribute('data-token') || token;
    if (page.documentElement.lang !== document.documentElement.lang) { speak(page); }
    var answer = document.getElementById('answer') || main.querySelector('h1');
    if (answer) { answer.setAttribute('tabindex', '-1'); answer.focus(); }
    window.scrollTo(0, 0);
  }

  // speak changes this page to the language of another page, chosen in another tab.
  function speak(page) {
    document.documentElement.lang = page.documentElement.lang;
    words = page.getElementById('waiting').dataset;
    ['header', '.skip'].forEach(function (part) {
      var old = document.querySelector(part), fresh = page.querySelector(part);
      if (old) { old.innerHTML = fresh ? fresh.innerHTML : ''; }
    });
    show();
  }

  function keep(url, body, what) {
    var queue = load(QUEUE);
    queue.push({ url: url, body: body, what: what });
    store(QUEUE, queue);
    show();
  }

  function submit(event) {
    var form = event.target;
    if (form.getAttribute('data-leave')) {
      if (window.caches) { caches.keys().then(function (names) { names.forEach(function (n) { caches.delete(n); }); }); }
      return;
    }
    if (form.method !== 'post' || form.getAttribute('data-plain')) { return; }
    event.preventDefault();
    var data = new URLSearchParams();
    new FormData(form).forEach(function (v, k) { data.append(k, v); });
    data.set('id', newID());
    data.set('at', new Date().toISOString());
    var body = data.toString(), url = form.getAttribute('action') || location.pathname;
    var button = form.querySelector('button[type=submit]'), said = button.textContent;
    button.disabled = true;
    button.textContent = words.sending;
    var offline = function () {
      keep(url, body, said);
      button.textContent = words.waits.replace('%s', function () { return said; });
      form.setAttribute('data-waits', 'yes');
      box.scrollIntoView();
    };
    if (form.getAttribute('data-offline') || load(QUEUE).length) { offline(); send(); return; } // after the marks that wait already
    post(url, body, 'text/html').then(function (r) {
      if (r.status >= 500 || r.status === 401) { out = r.status === 401; offline(); return; }
      return r.text().then(replace);
    }, offline);
  }

  // send sends the waiting marks, the oldest first. The id of a mark makes sure that it
  // counts once.
  function send() {
    var queue = load(QUEUE);
    if (sending || !queue.length) { return; }
    sending = true;
    var m = queue[0], data = new URLSearchParams(m.body);
    if (token) { data.set('token', token); }
    post(m.url, data.toString(), 'application/json').then(function (r) {
      out = r.status === 401;
      if (r.status === 403) { renew(); }
      if (r.status >= 500 || r.status === 401 || r.status === 403 || r.status === 429) { throw new Error(String(r.status)); }
      return r.json().then(function (a) { return { a: a, lang: r.headers.get('Content-Language') }; });
    }).then(function (r) {
      var a = r.a;
      var rest = load(QUEUE).filter(function (q) { return q.body !== m.body; });
      store(QUEUE, rest);
      if (!a.good) { var told = load(TOLD); told.push({ text: a.message, lang: r.lang }); store(TOLD, told); }
      sending = false;
      show();
      if (rest.length) { send(); return; }
      if (document.querySelector('[data-waits]') || document.getElementById('offline-done')) { location.reload(); }
    }).catch(function () { sending = false; show(); });
  }

  // renew fetches a new token for a page without one, such as the offline page, or with
  // an old one. The next attempt sends the waiting marks with it.
  function renew() {
    fetch('/', { credentials: 'same-origin' }).then(function (r) { return r.text(); }).then(function (html) {
      token = new DOMParser().parseFromString(html, 'text/html').body.getAttribute('data-token') || token;
    }).catch(function () {});
  }

  function board() {
    var at = document.getElementById('board'), live = document.getElementById('live');
    if (!at || !window.EventSource) { return; }
    var all = at.getAttribute('data-all') ? '&all' : '';
    var source = new EventSource('/board/changes?after=' + at.getAttribute('data-after') + '&lang=' + document.documentElement.lang + all);
    source.onopen = function () { live.textContent = live.dataset.fresh; };
    source.onerror = function () { live.textContent = live.dataset.cut; };
    source.addEventListener('board', function (event) {
      var u = JSON.parse(event.data);
      if (u.reload || !change(u)) { location.reload(); }
    });
  }

  // change replaces the rows of the board. It returns false if the page has no place for
  // a row.
  function change(u) {
    return (u.rows || []).every(function (r) {
      var job = document.getElementById('j-' + r.job), old = document.getElementById('t-' + r.code);
      if (!job) { return false; }
      job.querySelector('.words').textContent = u.jobs[r.job];
      if (!r.html) { if (old) { old.parentNode.removeChild(old); } return true; }
      var t = document.createElement('tbody');
      t.innerHTML = r.html;
      var fresh = t.firstElementChild;
      fresh.className += ' new';
      if (old) { old.parentNode.replaceChild(fresh, old); } else { job.querySelector('tbody').appendChild(fresh); }
      return true;
    });
  }

  // unopened offers the next step of a ticket that this phone never opened. Without a
  // network the ticket's code is known only from the address.
  function unopened() {
    var form = document.getElementById('offline-done'), path = location.pathname;
    if (!form || !/^\/t\//i.test(path)) { return; }
    form.hidden = false;
    form.setAttribute('action', path);
    document.getElementById('offline-code').textContent = path.slice(3);
  }

  document.addEventListener('submit', submit);
  window.addEventListener('online', send);
  setInterval(send, 5000);
  var answer = document.getElementById('answer');
  if (answer) { answer.focus(); }
  show();
  send();
  board();
  unopened();
  if ('serviceWorker' in navigator) {
    navigator.serviceWorker.register('/worker.js').catch(function () {});
    // A page that opened while the worker was starting may have missed it. The worker
    // stores pages of one language, which may have been chosen on this page.
    navigator.serviceWorker.ready.then(function (r) { r.active.postMessage({ lang: document.documentElement.lang }); });
  }
})();
