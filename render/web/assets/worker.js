// Keeps the pages that were opened, so that they open again while the network is
// away. The network goes first, always; nothing that is sent passes through here.
// Pages are kept in one language: those of another are dropped as soon as a page
// comes in the language that was chosen since.
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

// A page that is open says which language it is in: not all pages are kept.
self.addEventListener('message', function (event) {
  var lang = event.data && event.data.lang; // a page of an earlier version says none
  event.waitUntil(Promise.all([self.clients.claim(), lang && pagesOf(lang)]));
});

function drop(which) {
  return caches.keys().then(function (names) {
    return Promise.all(names.filter(which).map(function (n) { return caches.delete(n); }));
  });
}

// pagesOf opens the pages of a language, which becomes the only one, with the page
// for a missing network among them.
function pagesOf(lang) {
  var name = PAGES + lang;
  return drop(function (n) { return n.indexOf(PAGES) === 0 && n !== name; }).then(function () {
    return caches.open(name);
  }).then(function (c) {
    return c.match(OFFLINE).then(function (kept) { return kept || c.add(OFFLINE).catch(function () {}); }).then(function () { return c; });
  });
}

// keep keeps an answer: a page, which says its language, or a style, script or
// picture of ours. What some network puts in their place is neither.
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
