// Package web serves the record of marks to phones and the wall screen. It
// makes the pages on the server. They work without scripts, in the dark and in
// daylight, with gloves and with a screen reader (WCAG 2.2 AA). A small script
// adds the rest: marks that wait in the phone while the network is away, and a
// board that updates itself.
//
// A phone needs the shop's PIN, or a join code from a phone that already
// joined. A signed cookie then says whose phone it is until the cookie expires.
// [New] returns the handler, which checks the host, origin, size and token of
// every request. The caller that serves it limits how long a request may take.
//
// The package decides no dimension and judges no mark.
package web
