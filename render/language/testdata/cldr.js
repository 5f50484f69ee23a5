// Writes cldr.tsv: dates and times in the forms of Unicode CLDR, from the Intl object
// of Node.js, which includes ICU. Run it with a Node.js that has the right version of
// CLDR:
//
//     node cldr.js > cldr.tsv
//
// The 12 instants cover every month, every weekday and every kind of hour: midnight,
// noon, one digit, two digits, before noon and after noon.
'use strict';

const tags = ['en', 'en-GB', 'en-US', 'es', 'es-MX', 'es-US'];
const instants = [
  '2026-01-01T00:00', '2026-02-09T09:05', '2026-03-10T14:05', '2026-04-22T12:00', '2026-05-31T12:59', '2026-06-06T23:59',
  '2026-07-03T01:07', '2026-08-16T11:30', '2026-09-21T13:10', '2026-10-13T10:00', '2026-11-04T22:45', '2026-12-25T00:30',
];

// written returns the parts that Intl writes. The kind of space before AM or PM
// differs between versions, so it becomes a plain space here.
function written(tag, options, t) {
  const parts = new Intl.DateTimeFormat(tag, { timeZone: 'UTC', ...options }).formatToParts(t);
  return parts.map(p => ({ ...p, value: p.value.replace(/[\u00a0\u202f]/g, ' ') }));
}
const text = parts => parts.map(p => p.value).join('');

// joint returns the text between a date and a time of day.
function joint(tag, t) {
  const parts = written(tag, { dateStyle: 'medium', timeStyle: 'short' }, t);
  return parts[parts.findIndex(p => p.type === 'hour') - 1].value;
}

console.log(`# CLDR ${process.versions.cldr}, by ICU ${process.versions.icu} of Node.js ${process.versions.node}`);
console.log('tag\tinstant\tday and month\tdate\tclock\tstamp');
for (const tag of tags) {
  for (const instant of instants) {
    const t = new Date(instant + 'Z');
    const clock = text(written(tag, { timeStyle: 'short' }, t));
    console.log([
      tag, instant,
      text(written(tag, { month: 'long', day: 'numeric' }, t)),
      text(written(tag, { dateStyle: 'long' }, t)),
      clock,
      text(written(tag, { weekday: 'short', month: 'short', day: 'numeric' }, t)) + joint(tag, t) + clock,
    ].join('\t'));
  }
}
