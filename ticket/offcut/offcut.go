// Package offcut is the shop's record of offcuts: pieces of the goods that jobs
// left over, large enough to keep, each with its label.
//
// The record never deletes a piece. A piece that a job used names the job. A job is offered
// the pieces that no job used; those that it left itself, once it was cut. The panels that
// were cut are listed by the codes of their tickets, so that a later plan covers the rest.
// Planning changes nothing; [Record.Cut] does, once for each job, when the cloth is
// cut. Lengths are exact. [Read] checks what it reads.
package offcut

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"slices"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// A Piece is one offcut.
type Piece struct {
	ticket.Piece            // its label, and its size as it lay on the roll
	Goods        string     // the name of the goods, as jobs call them
	Kind         goods.Kind // of the goods
	From         uuid.UUID  // the job that left the piece; zero if a person added it by hand
	Job          string     // the name of that job
	UsedBy       uuid.UUID  // the job that used the piece; zero while it is on hand
}

// A Record is all offcuts that ever were. The zero Record is empty.
type Record struct {
	pieces  []Piece
	cutJobs []uuid.UUID // jobs recorded as cut, once for each time
	panels  []code.Code // tickets whose panels are recorded as cut
}

// TimesCut says how often cutting was recorded for a job: once for its panels, and once
// more for those that were cut again or came later.
func (r *Record) TimesCut(job uuid.UUID) (n int) {
	for _, id := range r.cutJobs {
		if id == job {
			n++
		}
	}
	return n
}

// WasCut reports whether the panel of a ticket is recorded as cut. Earlier versions of the
// record had no panels: they mean every first panel of a job.
func (r *Record) WasCut(t *ticket.Ticket) bool {
	if slices.Contains(r.panels, t.Code) {
		return true
	}
	return r.TimesCut(t.Job.ID) > 0 && t.Remake == 0 && !r.names(t.Job)
}

// names reports whether the record has panels of a job.
func (r *Record) names(job *ticket.Job) bool {
	for _, s := range job.Shades {
		for unit := 1; unit <= s.Quantity; unit++ {
			for remake := range mostRemakes {
				if slices.Contains(r.panels, code.Derive(code.Identity(job.ID, s.ID, unit, remake))) {
					return true
				}
			}
		}
	}
	return false
}

// mostRemakes is how often a unit is looked for: nobody cuts a panel more often.
const mostRemakes = 9

// OnHand returns the pieces that no job has used.
func (r *Record) OnHand() []Piece {
	var on []Piece
	for _, p := range r.pieces {
		if p.UsedBy == uuid.Nil {
			on = append(on, p)
		}
	}
	return on
}

// For returns the part of the record that is offered to a job.
func (r *Record) For(job *ticket.Job) cutplan.Record { return offer{r, job} }

type offer struct {
	*Record
	job *ticket.Job
}

// Offcuts returns the pieces of the goods that the job may use. If the job lists a
// piece of its own with the same label, it means that piece. If there are more than
// a plan accepts, the largest are offered.
func (o offer) Offcuts(g ticket.Goods) ([]ticket.Piece, error) {
	own := o.job.Supply.Goods[g.Name].OnHand
	var list []ticket.Piece
	for _, p := range o.pieces {
		named := slices.ContainsFunc(own, func(q ticket.Piece) bool { return q.Label == p.Label })
		if p.Goods == g.Name && p.Kind == g.Kind && o.offered(p) && !named {
			list = append(list, p.Piece)
		}
	}
	slices.SortStableFunc(list, func(a, b ticket.Piece) int {
		return cmp.Compare(b.Width.Millimetres()*b.Length.Millimetres(), a.Width.Millimetres()*a.Length.Millimetres())
	})
	return list[:min(len(list), max(nest.MostOnHand-len(own), 0))], nil
}

// offered reports whether a job may use a piece. What it left itself is there only once it
// was cut.
func (o offer) offered(p Piece) bool {
	return p.UsedBy == uuid.Nil && (p.From != o.job.ID || o.TimesCut(o.job.ID) > 0)
}

// Cut records that the panels of plans were cut: it marks the offcuts they use, and adds
// those they leave. A panel is cut once; see [Record.WasCut].
//
// Only says which panels were cut; nil stands for all. Of a plan that is cut in part, the
// offcuts are not known yet, so none is added, and some reports it.
func (r *Record) Cut(job *ticket.Job, plans []*cutplan.Plan, only func(*ticket.Ticket) bool) (used, left []Piece, some bool) {
	for _, p := range plans {
		cut, whole := 0, len(p.Panels)
		for _, panel := range p.Panels {
			if only == nil || only(panel.Ticket) {
				cut++
				r.panels = append(r.panels, panel.Ticket.Code)
			}
		}
		if cut == 0 {
			continue
		}
		for _, h := range p.OnHand {
			own := slices.ContainsFunc(job.Supply.Goods[p.Goods.Name].OnHand, func(q ticket.Piece) bool { return q.Label == h.Label })
			i := slices.IndexFunc(r.pieces, func(q Piece) bool { return q.Label == h.Label && q.Goods == p.Goods.Name })
			if !own && i >= 0 {
				r.pieces[i].UsedBy = job.ID
				used = append(used, r.pieces[i])
			}
		}
		if cut < whole {
			some = true
			continue
		}
		for i, k := range p.Keep {
			part := p.Parts[k]
			left = append(left, Piece{
				Piece: ticket.Piece{Label: p.KeepLabel(i), Width: part.Width, Length: part.Length},
				Goods: p.Goods.Name, Kind: p.Goods.Kind, From: job.ID, Job: job.Name,
			})
		}
	}
	r.pieces, r.cutJobs = append(r.pieces, left...), append(r.cutJobs, job.ID)
	return used, left, some
}

const note = "The shop's offcuts, kept by shadewright cut. You may add a piece by hand, without from and job, and remove a spoilt one."

// A file is the record as it is stored.
type file struct {
	Note    string      `json:"note"`
	Offcuts []entry     `json:"offcuts"`
	Cut     []uuid.UUID `json:"jobs_cut"`
	Panels  []code.Code `json:"panels_cut,omitempty"`
}

type entry struct {
	Label  string `json:"label"`
	Goods  string `json:"goods"`
	Kind   string `json:"kind"`
	Width  string `json:"width"`
	Length string `json:"length"`
	From   string `json:"from,omitempty"`
	Job    string `json:"job,omitempty"`
	UsedBy string `json:"used_by,omitempty"`
}

// Bytes returns the record in the form of its file.
func (r *Record) Bytes() ([]byte, error) {
	f := file{Note: note, Offcuts: []entry{}, Cut: r.cutJobs, Panels: r.panels}
	for _, p := range r.pieces {
		e := entry{Label: p.Label, Goods: p.Goods, Kind: p.Kind.String(), Width: p.Width.String(), Length: p.Length.String(), Job: p.Job}
		if p.From != uuid.Nil {
			e.From = p.From.String()
		}
		if p.UsedBy != uuid.Nil {
			e.UsedBy = p.UsedBy.String()
		}
		f.Offcuts = append(f.Offcuts, e)
	}
	data, err := json.MarshalIndent(f, "", "  ")
	return append(data, '\n'), err
}

// Read reads a record. Empty data is an empty record.
func Read(data []byte) (*Record, error) {
	r := &Record{}
	if len(bytes.TrimSpace(data)) == 0 {
		return r, nil
	}
	var f file
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&f); err != nil {
		return nil, fmt.Errorf("is not a record of offcuts: %w", err)
	}
	r.cutJobs, r.panels = f.Cut, f.Panels
	for i, c := range f.Panels {
		if err := c.Check(); err != nil {
			return nil, fmt.Errorf("panels_cut[%d]: %w; remove it, or copy the code from a ticket", i+1, err)
		}
	}
	seen := map[string]bool{}
	for i, e := range f.Offcuts {
		p, err := e.piece()
		if err == nil && seen[p.Label] {
			err = fmt.Errorf("label %q appears twice; give each piece its own label", p.Label)
		}
		if err != nil {
			return nil, fmt.Errorf("offcuts[%d]: %w", i+1, err)
		}
		seen[p.Label] = true
		r.pieces = append(r.pieces, p)
	}
	return r, nil
}

// longest is the longest piece on hand that a job may list.
const longest = 200 * measure.Metre

func (e entry) piece() (Piece, error) {
	p := Piece{Piece: ticket.Piece{Label: e.Label}, Goods: e.Goods, Job: e.Job}
	if e.Label == "" || len(e.Label) > 24 || e.Goods == "" {
		return p, fmt.Errorf("label %q, goods %q: a piece needs a label of at most 24 characters, and the name of its goods", e.Label, e.Goods)
	}
	kind, ok := goods.ParseKind(e.Kind)
	if !ok {
		return p, fmt.Errorf("kind %q is not a known kind of goods; write for example %s", e.Kind, goods.CoatedMesh)
	}
	p.Kind = kind
	for _, side := range []struct {
		name, text string
		into       *measure.Length
	}{{"width", e.Width, &p.Width}, {"length", e.Length, &p.Length}} {
		l, err := measure.Parse(side.text, measure.Undeclared)
		if err == nil && (l <= 0 || l > longest) {
			err = fmt.Errorf("%q cannot be the size of a piece; check the number and its unit", side.text)
		}
		if err != nil {
			return p, fmt.Errorf("%s: %w", side.name, err)
		}
		*side.into = l
	}
	for _, id := range []struct {
		name, text string
		into       *uuid.UUID
	}{{"from", e.From, &p.From}, {"used_by", e.UsedBy, &p.UsedBy}} {
		if id.text == "" {
			continue
		}
		u, err := uuid.Parse(id.text)
		if err != nil {
			return p, fmt.Errorf("%s: %q is not a UUID; remove it, or copy the job's id", id.name, id.text)
		}
		*id.into = u
	}
	return p, nil
}
