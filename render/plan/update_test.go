package plan

import "flag"

var update = flag.Bool("update", false, "keep the drawing as it is now")
