package main

import (
	"cmp"
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"shadewright/config"
	"shadewright/render/language"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/form"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
	"shadewright/ticket/offcut"
)

// settingFlags are the flags that change the shop's settings for one run. Most commands
// have them.
type settingFlags struct {
	file string   // --shop
	set  []string // --set key=value
}

func (f *settingFlags) add(c *cobra.Command) {
	c.Flags().StringVar(&f.file, "shop", "", "settings `file` to use instead of shop.yaml beside the job")
	c.Flags().StringArrayVar(&f.set, "set", nil, "set one setting for this run, as `key=value`; see check --settings")
}

// load returns the settings for a job in the folder.
func (f *settingFlags) load(s environment, dir string) (config.Settings, error) {
	flags := map[string]string{}
	for _, kv := range f.set {
		k, v, ok := strings.Cut(kv, "=")
		if !ok {
			return config.Settings{}, usageError{fmt.Errorf("--set %q has no value; write key=value, for example --set paper=a4", kv)}
		}
		flags[k] = v
	}
	c, err := config.Load(config.Options{JobDir: dir, UserDir: s.userDir, File: f.file, Environ: s.environ, Flags: flags, Papers: sheet.Names(), Languages: languages()})
	if err != nil {
		return c, usageError{unread(f.file, err)}
	}
	return c, nil
}

// languages lists the languages of paper and phone pages for the setting language.
func languages() []config.Language {
	var list []config.Language
	for _, l := range language.All() {
		list = append(list, config.Language{Tag: l.Tag(), Comma: l.Comma()})
	}
	return list
}

// languageOf returns the language of the settings. They were read with [languages], so
// the language is known.
func languageOf(c config.Settings) language.Language {
	l, _ := language.Named(c.Language) // English, if the settings were not loaded
	return l
}

// A loadedJob has been read; it has its settings and, after make, its tickets.
type loadedJob struct {
	settings config.Settings
	dir      string // of the job file
	dataDir  string // the program's folder in the user's data; empty if there is none
	file     *jobfile.File
	offcuts  *offcut.Record // nil: the shop keeps no record of offcuts
	done     cutting        // what the shop's record says about panels that are cut
	tickets  []*ticket.Ticket
	plans    []*cutplan.Plan // one for each goods, without the shades that have a stop
}

// loadJob reads a job, makes its tickets and lays their panels on the goods.
func loadJob(ctx context.Context, s environment, f *settingFlags, path string) (*loadedJob, error) {
	l, err := readJob(s, f, path)
	if err != nil {
		return nil, err
	}
	return l, l.make(ctx, s, path, nil)
}

// readJob reads a job and its settings.
func readJob(s environment, f *settingFlags, path string) (*loadedJob, error) {
	settings, err := f.load(s, filepath.Dir(path))
	if err != nil {
		return nil, err
	}
	file, err := readJobFile(s, path, jobOptions(settings))
	if err != nil {
		return nil, notJob(path, unread(path, err))
	}
	return &loadedJob{settings: settings, dir: filepath.Dir(path), dataDir: s.dataDir, file: file}, nil
}

// standardInput is the path that stands for it, and standardInputName what errors in
// it are reported under.
const (
	standardInput     = "-"
	standardInputName = "standard input"
)

// readJobFile reads a job from a file or from standard input.
func readJobFile(s environment, path string, opt jobfile.Options) (*jobfile.File, error) {
	if path != standardInput {
		return jobfile.ReadPath(path, opt)
	}
	data, err := form.LoadFrom(s.in)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", standardInputName, err)
	}
	return jobfile.Read(standardInputName, data, opt)
}

// folderName returns the name of the folder for what is made of the job: the job file's,
// or the job's own if it came from standard input.
func (l *loadedJob) folderName(path string) string {
	if path != standardInput {
		return baseName(path)
	}
	return cmp.Or(form.Slug(l.file.Job.Name), "job")
}

// options returns the shop's rules for making tickets.
func (l *loadedJob) options() ticket.Options {
	return ticket.Options{
		Limits: l.settings.Limits,
		Rules:  l.settings.Rules,
		Route:  l.settings.Record.Route,
	}
}

// make makes the tickets and lays their panels on the goods. Remake says how often a
// unit was cut again; nil stands for never.
func (l *loadedJob) make(ctx context.Context, s environment, path string, remake func(shade string, unit int) int) (err error) {
	if l.offcuts, err = l.readOffcuts(); err != nil {
		return err
	}
	opt := l.options()
	opt.Remake = remake
	tickets, err := ticket.Make(&l.file.Job, opt)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	plans, laid, err := l.plan(ctx, s, tickets)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	ticket.Seal(tickets, laid)
	l.tickets, l.plans = tickets, plans
	return cutShort(s, plans)
}

// jobOptions returns the shop's values for keys that a job leaves out.
func jobOptions(c config.Settings) jobfile.Options {
	return jobfile.Options{Practice: c.Practice(), Papers: sheet.Names(), NewID: uuid.New}
}

// paper returns the paper of the job: the one on the command line, else the job's own,
// else the shop's.
func (l *loadedJob) paper() (sheet.Paper, error) {
	if l.file.Paper == (jobfile.Paper{}) || l.settings.ByFlag("paper") {
		return paperOf(l.settings.Paper)
	}
	return paperOf(l.file.Paper)
}

// templatePaper returns the paper of the marking template.
func (l *loadedJob) templatePaper() (sheet.Paper, error) {
	p := l.file.TemplatePaper
	if p == (jobfile.Paper{}) || l.settings.ByFlag("template_paper") {
		p = l.settings.TemplatePaper
	}
	if p == (jobfile.Paper{}) {
		return l.paper()
	}
	return paperOf(p)
}

func paperOf(p jobfile.Paper) (sheet.Paper, error) {
	if p.Roll > 0 {
		return sheet.OnRoll(p.Roll)
	}
	if p.Name != "" {
		return sheet.Named(p.Name)
	}
	return sheet.Sized(p.Width, p.Height)
}

// margins returns the edges of a sheet that the printer cannot print.
func (l *loadedJob) margins() sheet.Margins { return sheet.Margins(l.settings.Margins) }

// unstopped returns the tickets of shades that can be made, and the ids of the shades
// with a stop.
func (l *loadedJob) unstopped() (good []*ticket.Ticket, stopped []string) {
	for _, t := range l.tickets {
		switch {
		case !t.Stopped():
			good = append(good, t)
		case t.Unit == 1:
			stopped = append(stopped, t.Shade.Called().String())
		}
	}
	return good, stopped
}

// stoppedError names the shades with a stop, and says what that means for the run.
func stoppedError(ids []string, what string) error {
	if len(ids) == 0 {
		return nil
	}
	return fmt.Errorf("%s %w; %s", measure.And(ids), errStopped, what)
}

// baseName returns a file's name without its folder and its ending.
func baseName(path string) string {
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base))
}
