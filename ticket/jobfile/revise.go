package jobfile

import "shadewright/ticket/form"

// Revise returns the text of a job file changed so that it holds want, with all comments,
// order and layout as they were; see [form.Revise]. Whatever changes a job that a person
// wrote changes it through Revise.
//
// Take the present nodes from [form.Parse] and change copies with [form.Node.With], for
// example the roller of a shade:
//
//	want := top.With(form.TextNode("donor-2"), "shades", "bunk-left", "roller")
//
// A new key goes where the table has it among the keys that are there. Revise does not
// judge the job: [Read] the text before writing it.
func Revise(name string, data []byte, want *form.Node, opt Options) ([]byte, error) {
	return form.Revise(name, data, form.Ordered(want, keys(newDraft(opt), opt)))
}
