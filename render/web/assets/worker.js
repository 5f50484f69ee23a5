// This worker stores the pages that the phone opens, so that they open again while the
// network is away. It always tries the network first, and it never handles what the phone
// sends. It stores pages in one language: as soon as a page arrives in a newly chosen
// language, it drops the pages of the earlier one.
'use strict';
var PAGES = 'pages-2-', ASSETS = 'assets-2', OFFLINE = '/offline', FIRST = ['/a/style.css', '/a/page.js', '/a/icon.svg'];

self.addEventListener('install', function (event) {
  event.waitUntil(Promise.all([
    caches.open(ASSETS).then(function (c) { return c.addAll(FIRST); }),
    fetch(OFFLINE).then(function (answer) {
      if (!answer.ok) { throw new Error(String(answer.status)); }
      return pagesOf(answer.headers.get('Content-Language'));
    })
  ]).then(function () { return self.skipWaiting(); }));
});

self.addEventListener('activate', function (event) {
  event.waitUntil(drop(function (n) { return n !== ASSETS && n.indexOf(PAGES) !== 0; }).then(function () { return self.clients.claim(); }));
});

// An open page sends its language, because the worker does not store every page.
self.addEventListener('message', function (event) {
  var lang = event.data && event.data.lang; // a page of an earlier version sends none
  event.waitUntil(Promise.all([self.clients.claim(), lang && pagesOf(lang)]));
});

function drop(which) {
  return caches.keys().then(function (names) {
    return Promise.all(names.filter(which).map(function (n) { return caches.delete(n); }));
  });
}

// pagesOf opens the store for the pages of a language and drops all others. It makes sure
// that the offline page is in it.
function pagesOf(lang) {
  var name = PAGES + lang;
  return drop(function (n) { return n.indexOf(PAGES) === 0 && n !== name; }).then(function () {
    return caches.open(name);
  }).then(function (c) {
    return c.match(OFFLINE).then(function (kept) { return kept || c.add(OFFLINE).catch(function () {}); }).then(function () { return c; });
  });
}

// keep stores an answer: a page, which states its language, or one of our styles, scripts
// or pictures. It ignores pages that some networks put in their place.
function keep(request, answer) {
  var lang = answer.headers.get('Content-Language');
  if (!lang && FIRST.indexOf(new URL(request.url).pathname) < 0) { return Promise.resolve(); }
  return (lang ? pagesOf(lang) : caches.open(ASSETS)).then(function (c) { return c.put(request, answer); });
}

self.addEventListener('fetch', function (event) {
  var r = event.request, url = new URL(r.url);
  if (r.method !== 'GET' || url.origin !== location.origin || /^\/(board\/changes|join|j\/|let-in)/i.test(url.pathname)) { return; }
  event.respondWith(fetch(r).then(function (answer) {
    if (answer.ok && !answer.redirected) { event.waitUntil(keep(r, answer.clone())); }
    return answer;
  }, function () {
    return caches.match(r).then(function (kept) {
      return kept || (r.mode === 'navigate' ? caches.match(OFFLINE) : Response.error());
    });
  }));
});
