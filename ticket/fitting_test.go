package ticket

import "testing"

// By hand, with the cloth's room side the good one: both flaps lie on the face that is up
// on the table and belong on the back. A tube behind the cloth touches its back.
func TestFacesFor(t *testing.T) {
	if got := FacesFor(Standard); got != (Faces{MarkDown: true, ToTube: true}) {
		t.Errorf("a standard roll: %+v", got)
	}
	if got := FacesFor(Reverse); got != (Faces{MarkDown: true}) {
		t.Errorf("a reverse roll: %+v", got)
	}
}
