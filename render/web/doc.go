// Package screen is the record of marks as a phone and a wall see it: pages made
// on the server, which work without any script, in the dark and in daylight,
// with gloves and with a screen reader (WCAG 2.2 AA). A small script adds what
// plain pages cannot: marks that wait in the phone while the network is away,
// and a board that changes by itself.
//
// Nobody is let in without the shop's PIN or a join code from a screen inside;
// then a signed cookie says who it is until it expires. [New] returns the
// handler; it judges the host, the origin, the size and the token of what
// arrives. Who serves it limits how long a request may take.
//
// The package decides no dimension and judges no mark.
package web
