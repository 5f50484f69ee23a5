package jobfile

import (
	"maps"
	"slices"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// A draft is a job while it is being read.
type draft struct {
	job      ticket.Job
	units    measure.System
	paper    Paper
	template Paper // for the marking template
	allow    ticket.Allow
	sewing   ticket.Sewing
	goods    map[string]goodsDraft
	rollers  map[string]rollerDraft
	slats    map[string]slatDraft
	brackets map[string]bracketDraft
	shades   []shadeDraft
	onHand   ticket.OnHand
}

// The draft of a part keeps its place in the file, for problems that appear only
// when a shade is worked out.
type goodsDraft struct {
	ticket.Goods
	both   measure.Length // selvage, if one length is given for both sides
	supply ticket.GoodsSupply
	rec    form.FileGroup
}

type rollerDraft struct {
	ticket.Roller
	length measure.Length // of a tube that does not telescope
	pins   hang.Pins
	supply ticket.RollerSupply
	rec    form.FileGroup
}

type slatDraft struct {
	ticket.Slat
	supply ticket.SlatSupply
	rec    form.FileGroup
}

type bracketDraft struct {
	hang.Bracket
	rec form.FileGroup
}

// An openingDraft holds optional lengths as values. [checkOpening] sets the
// pointers to those that are given.
type openingDraft struct {
	ticket.Opening
	diagonals            []measure.Length
	depth, head, valance measure.Length
	obstructions         []obstructionDraft
}

type obstructionDraft struct {
	hang.Obstruction
	below measure.Length
}

// A shadeDraft holds the names of its goods, roller, slat and bracket, because the
// file may define them further down.
type shadeDraft struct {
	ticket.Shade
	goods, roller, slat, bracket string
	opening                      openingDraft
	behind                       hang.Behind
	trial                        []hang.Reading
	rec                          form.FileGroup
}

func newDraft(opt Options) *draft {
	return &draft{allow: opt.Practice.Allow, sewing: opt.Practice.Sewing}
}

// file makes a file from a draft without problems.
func (d *draft) file(name string, opt Options) *File {
	f := &File{Name: name, Job: d.job, Paper: d.paper, TemplatePaper: d.template}
	f.Job.Style = opt.Style(d.units)
	f.Job.Supply = d.supply()
	f.Parts = d.parts()
	for i := range d.shades {
		f.Job.Shades = append(f.Job.Shades, d.shade(&d.shades[i]))
		f.Lines = append(f.Lines, d.shades[i].rec.Line(""))
	}
	return f
}

// parts returns every part that the file defines.
func (d *draft) parts() Parts {
	p := Parts{map[string]ticket.Goods{}, map[string]ticket.Roller{}, map[string]ticket.Slat{}, map[string]hang.Bracket{}}
	for name, g := range d.goods {
		p.Goods[name] = g.Goods
	}
	for name, r := range d.rollers {
		p.Rollers[name] = r.Roller
	}
	for name, s := range d.slats {
		p.Slats[name] = s.Slat
	}
	for name, b := range d.brackets {
		p.Brackets[name] = b.Bracket
	}
	return p
}

// anyRoller is the name that leaves the roller of a shade open.
const anyRoller = "any"

// open reports whether a shade leaves its roller open. A roller of that name counts first.
func (d *draft) open(s *shadeDraft) bool {
	_, named := d.rollers[anyRoller]
	return s.roller == anyRoller && !named
}

// rollerList returns the rollers in the order of their names.
func (d *draft) rollerList() (list []ticket.Roller) {
	for _, name := range slices.Sorted(maps.Keys(d.rollers)) {
		list = append(list, d.rollers[name].Roller)
	}
	return list
}

// shade makes a shade from its draft and the drafts of its parts.
func (d *draft) shade(from *shadeDraft) ticket.Shade {
	s := from.Shade
	s.Goods = d.goods[from.goods].Goods
	s.Roller = d.rollers[from.roller].Roller
	s.AnyRoller = d.open(from)
	s.Slat = d.slats[from.slat].Slat
	if from.rec.Has("opening") {
		s.Opening = &from.opening.Opening
	}
	if from.rec.Has("bracket") {
		b := d.brackets[from.bracket].Bracket
		s.Bracket = &b
	}
	if from.rec.Has("behind") {
		s.Behind = &from.behind
	}
	if len(from.trial) == 2 {
		s.Trial = (*[2]hang.Reading)(from.trial)
	}
	return s
}
