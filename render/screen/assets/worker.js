// Keeps the pages that were opened, so that they open again while the network is
// away. The network goes first, always; nothing that is sent passes through here.
'use strict';
var KEPT = 'pages-1', FIRST = ['/offline', '/a/style.css', '/a/page.js', '/a/icon.svg'];

self.addEventListener('install', function (event) {
  event.waitUntil(caches.open(KEPT).then(function (c) { return c.addAll(FIRST); }).then(function () { return self.skipWaiting(); }));
});

self.addEventListener('activate', function (event) {
  event.waitUntil(caches.keys().then(function (names) {
    return Promise.all(names.filter(function (n) { return n !== KEPT; }).map(function (n) { return caches.delete(n); }));
  }).then(function () { return self.clients.claim(); }));
});

self.addEventListener('message', function (event) { event.waitUntil(self.clients.claim()); });

self.addEventListener('fetch', function (event) {
  var r = event.request, url = new URL(r.url);
  if (r.method !== 'GET' || url.origin !== location.origin || /^\/(board\/changes|join|j\/|let-in)/i.test(url.pathname)) { return; }
  event.respondWith(fetch(r).then(function (answer) {
    if (answer.ok && !answer.redirected) {
      var copy = answer.clone();
      event.waitUntil(caches.open(KEPT).then(function (c) { return c.put(r, copy); }));
    }
    return answer;
  }, function () {
    return caches.match(r).then(function (kept) {
      return kept || (r.mode === 'navigate' ? caches.match('/offline') : Response.error());
    });
  }));
});
