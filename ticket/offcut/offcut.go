// Package offcut is the shop's record of offcuts: pieces of the goods that jobs
// left over, large enough to keep, each with its label.
//
// The record never deletes a piece. A piece that a job used names the job, so that
// the job's plan can be made again as it was printed. A job is offered the pieces
// that no job used and those that it used itself, but never those that it left.
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
	cutJobs []uuid.UUID // jobs recorded as cut
}

// WasCut reports whether a job was recorded as cut.
func (r *Record) WasCut(job uuid.UUID) bool { return slices.Contains(r.cutJobs, job) }

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
		if p.Goods == g.Name && p.Kind == g.Kind && p.offered(o.job.ID) && !named {
			list = append(list, p.Piece)
		}
	}
	slices.SortStableFunc(list, func(a, b ticket.Piece) int {
		return cmp.Compare(b.Width.Millimetres()*b.Length.Millimetres(), a.Width.Millimetres()*a.Length.Millimetres())
	})
	return list[:min(len(list), max(nest.MostOnHand-len(own), 0))], nil
}

func (p Piece) offered(job uuid.UUID) bool {
	return p.From != job && (p.UsedBy == uuid.Nil || p.UsedBy == job)
}

// Cut records that a job was cut by its plans: it marks the offcuts they use, and
// adds those they leave. A job is cut once; see [Record.WasCut].
func (r *Record) Cut(job *ticket.Job, plans []*cutplan.Plan) (used, left []Piece) {
	for _, p := range plans {
		for _, h := range p.OnHand {
			own := slices.ContainsFunc(job.Supply.Goods[p.Goods.Name].OnHand, func(q ticket.Piece) bool { return q.Label == h.Label })
			i := slices.IndexFunc(r.pieces, func(q Piece) bool { return q.Label == h.Label && q.Goods == p.Goods.Name })
			if !own && i >= 0 {
				r.pieces[i].UsedBy = job.ID
				used = append(used, r.pieces[i])
			}
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
	return used, left
}

const note = "The shop's offcuts, kept by shadewright cut. You may add a piece by hand, without from and job, and remove a spoilt one."

// A file is the record as it is stored.
type file struct {
	Note    string      `json:"note"`
	Offcuts []entry     `json:"offcuts"`
	Cut     []uuid.UUID `json:"jobs_cut"`
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
	f := file{Note: note, Offcuts: []entry{}, Cut: r.cutJobs}
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
	r.cutJobs = f.Cut
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
