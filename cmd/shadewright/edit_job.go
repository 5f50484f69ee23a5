package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"shadewright/cmd/shadewright/ask"
	"shadewright/cmd/shadewright/outdir"
	"shadewright/ticket/form"
	"shadewright/ticket/interview"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// An editing changes a job file that exists, by questions.
type editing struct {
	environment
	asker
	path string
	data []byte     // as it was read
	read *form.Node // as it was read
	now  *form.Node // with the changes so far
	opt  interview.Options
}

// editJob shows what a job holds and asks what to change until the changes are written
// or dropped.
func editJob(ctx context.Context, s environment, opt *newOptions, iopt interview.Options, path string) error {
	if opt.fresh {
		return usageError{fmt.Errorf("--fresh starts a job that was not finished again, but %s is finished; leave out --fresh to change it", path)}
	}
	data, err := form.Load(path)
	if err != nil {
		return notJob(path, err)
	}
	top, bad := form.Parse(path, data)
	if bad != nil {
		return notJob(path, bad)
	}
	if top.Shape != form.Keys {
		return form.Problems{{File: path, Fault: form.Fault{Problem: "is empty", Fix: "delete it, and run shadewright new " + path + " again"}}}
	}
	e := &editing{environment: s, path: path, data: data, read: top, now: top, opt: iopt}
	e.asker = opt.asker(s)
	if err := e.show(); err != nil {
		return err
	}
	return e.menu(ctx)
}

// leftError ends a run that leaves changes unwritten; nil if there are none.
func (e *editing) leftError() error {
	if e.now.Same(e.read) {
		return nil
	}
	return fmt.Errorf("%w: %w; %s is unchanged", errPart, errStoppedAsking, e.path)
}

// errLeft leaves the questions without writing.
var errLeft = errors.New("left")

// menu asks what to do until the user has enough.
func (e *editing) menu(ctx context.Context) error {
	doing := []struct {
		row string
		do  func(context.Context) error
	}{
		{"write the changes", nil},
		{"add a shade", e.add},
		{"change a shade", e.changeShade},
		{"remove a shade", e.removeShade},
		{"change goods, a roller, a slat or a bracket", e.changePart},
		{"change the facts of the job", e.changeJob},
		{"show the job", func(context.Context) error { return e.show() }},
		{"show the changes", func(context.Context) error { return e.showChanges() }},
		{"leave without writing", func(context.Context) error { return errLeft }},
	}
	rows := make([]string, len(doing))
	for i, d := range doing {
		rows[i] = d.row
	}
	for {
		rows[0] = "write the changes"
		if e.now.Same(e.read) {
			rows[0] = "nothing; leave the job as it is"
		}
		n, err := e.pick(ctx, "What do you want to do", rows)
		if err == nil && n == 0 {
			done, err := e.finish(ctx)
			if done || err != nil {
				return err
			}
			continue
		}
		if err == nil && n > 0 {
			err = doing[n].do(ctx)
		}
		switch {
		case errors.Is(err, context.Canceled):
			return fmt.Errorf("interrupted; %s is unchanged: %w", e.path, context.Canceled)
		case errors.Is(err, errLeft):
			return e.leftError()
		case err != nil:
			return err
		}
	}
}

// talk starts an interview about the job as it is now.
func (e *editing) talk() *interview.Interview { return interview.Edit(e.now, e.opt) }

// keep takes over what the answers to an interview changed. What no answer touched stays
// as it is in the file, even if the questions cannot express it.
func (e *editing) keep(v *interview.Interview) {
	e.now = form.Carry(e.now, e.talk().Top(), v.Top())
}

// change lists answers and asks again the ones that the user picks.
func (e *editing) change(ctx context.Context, v *interview.Interview, what string, in func(interview.Entered) bool) error {
	for {
		for { // an answer may lead to new questions
			if _, more := v.Next(); !more {
				break
			}
			if left, err := e.one(ctx, v); err != nil {
				return err
			} else if left == ask.Back && !v.Back() {
				break
			}
		}
		rows, keys := []string{"done with " + what}, []string{""}
		for _, a := range v.Entered() {
			if in(a) {
				rows, keys = append(rows, a.Ask+": "+a.Text), append(keys, a.Key)
			}
		}
		n, err := e.pick(ctx, "Which answer do you want to change", rows)
		if err != nil {
			return err
		}
		if n <= 0 {
			e.keep(v)
			return nil
		}
		v.Goto(keys[n])
		for q, _ := v.Next(); q.Key == keys[n]; q, _ = v.Next() {
			left, err := e.one(ctx, v)
			if err != nil {
				return err
			}
			if left != "" {
				v.Stay()
				break
			}
		}
	}
}

func (e *editing) changeJob(ctx context.Context) error {
	return e.change(ctx, e.talk(), "the facts of the job", func(a interview.Entered) bool {
		return !strings.ContainsAny(a.Key, ".[") && a.Key != "units" // bare numbers that no question shows would become other lengths
	})
}

func (e *editing) changeShade(ctx context.Context) error {
	n, err := e.whichShade(ctx, "Which shade do you want to change")
	if err != nil || n < 1 {
		return err
	}
	at := fmt.Sprintf("shades[%d].", n)
	return e.change(ctx, e.talk(), shadeName(e.shades()[n-1], n), func(a interview.Entered) bool {
		return strings.HasPrefix(a.Key, at) && a.Key != at+more && !strings.HasSuffix(a.Key, ".name") || strings.HasPrefix(a.Key, at+"opening.")
	})
}

// more is the last part of the key of the question for another shade.
const more = "more"

// changePart lists the parts that shades use, because only these have questions.
func (e *editing) changePart(ctx context.Context) error {
	v := e.talk()
	rows, at := []string{"none of them"}, []string{""}
	for _, k := range partGroups {
		group := e.now.At(k.group)
		if group == nil {
			continue
		}
		for _, entry := range group.Entries {
			key := k.group + "." + entry.Key + "."
			if slices.ContainsFunc(v.Entered(), func(a interview.Entered) bool { return strings.HasPrefix(a.Key, key) }) {
				rows, at = append(rows, k.word+" "+entry.Key+": "+inWords(entry.Value)), append(at, key)
			}
		}
	}
	n, err := e.pick(ctx, "Which one do you want to change", rows)
	if err != nil || n < 1 {
		return err
	}
	what, _, _ := strings.Cut(rows[n], ":")
	return e.change(ctx, v, what, func(a interview.Entered) bool { return strings.HasPrefix(a.Key, at[n]) })
}

func (e *editing) removeShade(ctx context.Context) error {
	n, err := e.whichShade(ctx, "Which shade do you want to remove")
	if err != nil || n < 1 {
		return err
	}
	shades := e.shades()
	if len(shades) == 1 {
		return e.Say("It is the only shade of the job; add another one first, or delete the file.")
	}
	name := shadeName(shades[n-1], n)
	e.now = e.now.With(&form.Node{Shape: form.List, Items: slices.Delete(slices.Clone(shades), n-1, n)}, "shades")
	return e.Say(name + " is removed. The goods, roller and slat it used stay in the file.")
}

// whichShade returns the number of a shade, from 1, or less if the user chooses none.
func (e *editing) whichShade(ctx context.Context, question string) (int, error) {
	rows := []string{"none of them"}
	for i, s := range e.shades() {
		rows = append(rows, shadeLine(s, i+1))
	}
	return e.pick(ctx, question, rows)
}

// add asks about one more shade.
func (e *editing) add(ctx context.Context) error {
	v := e.talk()
	n := len(e.shades()) + 1
	at := fmt.Sprintf("shades[%d].", n)
	before := fmt.Sprintf("shades[%d].%s", n-1, more)
	if n > 1 {
		if !v.Goto(before) {
			return e.Say("A question about an earlier shade has no answer yet; change that shade first.")
		}
		if _, err := v.Answer("yes"); err != nil {
			return err
		}
	}
	for {
		q, open := v.Next()
		if !open || q.Key == at+more {
			e.keep(v)
			e.leaveOutDefaults(n)
			return nil
		}
		left, err := e.one(ctx, v)
		switch {
		case err != nil:
			return err
		case left == ask.List:
			err = e.pickEntered(ctx, v, at)
		case left == ask.Back && !v.Back():
			return nil
		}
		if err != nil {
			return err
		}
		if q, _ := v.Next(); q.Key == before {
			return e.Say("No shade is added.")
		}
	}
}

// leaveOutDefaults removes from a new shade what holds without being written.
func (e *editing) leaveOutDefaults(n int) {
	shades := slices.Clone(e.shades())
	if n > len(shades) {
		return
	}
	fields := jobfile.FieldsOf(e.opt.Options)
	for _, key := range []string{"quantity", "roll"} {
		if textOf(shades[n-1], key) == fields.At("shades."+key).Default {
			shades[n-1] = shades[n-1].With(nil, key)
		}
	}
	e.now = e.now.With(&form.Node{Shape: form.List, Items: shades}, "shades")
}

// pickEntered asks again an answer about the new shade.
func (e *editing) pickEntered(ctx context.Context, v *interview.Interview, at string) error {
	rows, keys := []string{"go on without a change"}, []string{""}
	for _, a := range v.Entered() {
		if strings.HasPrefix(a.Key, at) {
			rows, keys = append(rows, a.Ask+": "+a.Text), append(keys, a.Key)
		}
	}
	n, err := e.pick(ctx, "Which answer do you want to change", rows)
	if err == nil && n > 0 {
		v.Goto(keys[n])
	}
	return err
}

// finish shows the changes and writes them. It returns false if the user wants to go on.
func (e *editing) finish(ctx context.Context) (done bool, err error) {
	if e.now.Same(e.read) {
		_, err := fmt.Fprintf(e.out, "%s\tunchanged\n", e.path)
		return true, err
	}
	text, err := jobfile.Revise(e.path, e.data, e.now, e.opt.Options)
	if err != nil {
		return true, err
	}
	if fresh := e.freshProblems(text); fresh != nil {
		return false, e.Say("The job cannot be written like this:\n" + fresh.Error())
	}
	if err := e.showChanges(); err != nil {
		return true, err
	}
	n, err := e.pick(ctx, "Write these changes to "+e.path, []string{"write them", "go on changing"})
	if err != nil || n != 0 {
		if errors.Is(err, errLeft) {
			err = e.leftError()
			return true, err
		}
		return false, err
	}
	switch data, err := os.ReadFile(e.path); {
	case err != nil:
		return true, err
	case !bytes.Equal(data, e.data):
		return true, fmt.Errorf("%s: another program changed it meanwhile, so nothing is written; run shadewright new %s again", e.path, e.path)
	}
	if err := outdir.Replace(e.path, text); err != nil {
		return true, err
	}
	_, err = fmt.Fprintf(e.out, "\n%s\t%s; next: shadewright check %s\n", e.path, measure.Count(len(e.shades()), "shade"), e.path)
	return true, err
}

// freshProblems returns what is wrong with the new text and was not wrong with the old.
func (e *editing) freshProblems(text []byte) (out form.Problems) {
	was, is := problemsOf(e.path, e.data, e.opt.Options), problemsOf(e.path, text, e.opt.Options)
	for _, p := range is {
		if !slices.ContainsFunc(was, func(o form.Problem) bool { return o.Field == p.Field && o.Problem == p.Problem && o.Value == p.Value }) {
			out = append(out, p)
		}
	}
	return out
}

func problemsOf(path string, text []byte, opt jobfile.Options) (out form.Problems) {
	_, err := jobfile.Read(path, text, opt)
	errors.As(err, &out) // every error of Read is one
	return out
}
