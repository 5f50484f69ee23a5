package goods

import (
	"fmt"
	"math"

	"shadewright/ticket/measure"
)

// A Thread is one row of the table of threads and needles. Commercial sizes are
// about a tenth of the denier. The tex label follows the undyed yarn, so it comes
// from this table and is never calculated from the size.
type Thread struct {
	Size        int // commercial size
	Tex         int // nominal, grams per 1000 m
	Needle      int // the usual number if a shop names none
	NeedleLeast int // accepted range, by number
	NeedleMost  int
	Source      string
}

// Size to tex: canvasetc.com (69 = Tex 70, 92 = Tex 90, 138 = Tex 135); 46 = Tex 45
// from memory of trade tables on ASTM D3823. A needle range joins the ranges that
// its sources name: each end comes from one of them, except for 46. The usual
// needles for 69 and 92 are common practice, no source.
var threads = []Thread{
	{46, 45, 14, 12, 16, "needle 14: leatherworker.net, topic 93986; range around it: common practice, no source"},
	{69, 70, 18, 16, 18, "16: canvasetc.com, its thinnest needle for Tex 70 to 135; 18: leatherworker.net, topic 93986, and NAVEDTRA 14218"},
	{92, 90, 20, 18, 20, "18 to 20: balloon-makers list, July 2002; 19 or 20: leatherworker.net, topic 93986"},
	{138, 135, 22, 20, 23, "20 to 22: jsrz.com, filament thread size 138; 22 or 23: leatherworker.net, topic 93986"},
}

// ThreadOf returns the row for a commercial size.
func ThreadOf(size int) (Thread, bool) {
	for _, t := range threads {
		if t.Size == size {
			return t, true
		}
	}
	return Thread{}, false
}

// ThreadSizes returns the sizes of the table in rising order.
func ThreadSizes() []int {
	sizes := make([]int, len(threads))
	for i, t := range threads {
		sizes[i] = t.Size
	}
	return sizes
}

// needleMetric gives the metric number, the blade's diameter in hundredths of a
// millimetre, of needles whose older number does not follow the rule below 19. 19,
// 20, 22: leatherworker.net, topic 93986; 21 and 23 from memory.
var needleMetric = map[int]int{19: 120, 20: 125, 21: 130, 22: 140, 23: 160}

// NeedleMetric returns the metric number (Nm) of a needle with the given older
// number: 18 is Nm 110. Even numbers below 19, and 11, follow (n − 8) × 5 + 60
// (apparelscience.com, needle number system). ok is false outside the table.
func NeedleMetric(number int) (nm int, ok bool) {
	if nm, ok := needleMetric[number]; ok {
		return nm, true
	}
	if number < 8 || number > 18 {
		return 0, false
	}
	return (number-8)*5 + 60, true
}

// LockstitchThread returns the thread, needle and bobbin together, that a run of
// lockstitch (type 301, ISO 4915) uses: C = 2 + 2·T·S per unit of seam, where T is
// the thickness sewn through and S the stitches per the same unit. Waste is in
// percent. The formula is the geometric one of textile handbooks
// (textilecalculations.com, problem 02: T 0.01 in, 10 per in → 2.2). The fixed
// ratio 1 : 2.5 is for thin cloth and falls short on canvas.
func LockstitchThread(seam, thickness, stitch measure.Length, waste int) (measure.Length, error) {
	if stitch <= 0 {
		return 0, fmt.Errorf("stitch length %s is not positive", stitch)
	}
	perUnit := 2 + 2*float64(thickness)/float64(stitch)
	mm := seam.Millimetres() * perUnit * (1 + float64(waste)/100)
	if math.Abs(mm) > measure.Longest.Millimetres() {
		return 0, fmt.Errorf("thread for a seam of %s in stitches of %s is impossibly long", seam, stitch)
	}
	return measure.FromMillimetres(mm), nil
}
