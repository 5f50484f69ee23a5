package main

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

var update = flag.Bool("update", false, "keep the pictures of the README as they are now; look at them first")

// The pictures in the README are previews of the sample job, as a user gets them.
const picturesFolder = "testdata/pictures/"

var pictures = map[string]string{ // each picture in the README, and the preview it comes from
	"ticket.png":   "preview-tickets-08.png",
	"template.png": "preview-template-01.png",
	"cutplan.png":  "preview-cutplan-01.png",
	"tags.png":     "preview-tags-01.png",
	"mounting.png": "preview-mounting-01.png",
}

// mostBytes is the largest size of a picture, so that the page opens at once.
const mostBytes = 80_000

// The pictures show what the program prints now, pixel by pixel. Pixels are the same on
// every machine; the bytes of a PNG are not compared, because Go may compress them
// differently one day.
func TestPictures(t *testing.T) {
	dir := t.TempDir()
	if code, _, errs := shadewright(t, "print", "--no-record", "--preview", "png", "--out", dir, sampleJob); code != exitDone {
		t.Fatalf("print ends with %d: %s", code, errs)
	}
	for name, from := range pictures {
		got, err := os.ReadFile(filepath.Join(dir, from))
		if err != nil {
			t.Fatal(err)
		}
		kept := filepath.Join("../..", picturesFolder, name)
		if *update {
			if err := os.WriteFile(kept, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(kept)
		if err != nil {
			t.Fatal(err)
		}
		if len(want) > mostBytes {
			t.Errorf("%s has %d bytes; want at most %d", name, len(want), mostBytes)
		}
		comparePictures(t, name, got, want)
	}
}

// comparePictures reports the first pixel that differs, and how many do.
func comparePictures(t *testing.T, name string, got, want []byte) {
	t.Helper()
	a, errA := png.Decode(bytes.NewReader(got))
	b, errB := png.Decode(bytes.NewReader(want))
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	if a.Bounds() != b.Bounds() {
		t.Errorf("%s is of %v; the program draws %v", name, b.Bounds(), a.Bounds())
		return
	}
	differ, first := 0, ""
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			if color.GrayModel.Convert(a.At(x, y)) != color.GrayModel.Convert(b.At(x, y)) {
				if differ++; differ == 1 {
					first = image.Pt(x, y).String()
				}
			}
		}
	}
	if differ > 0 {
		t.Errorf("%s: %d pixels differ from what the program draws, the first at %s; to keep the new pictures: go test ./cmd/shadewright -run Pictures -update", name, differ, first)
	}
}

// README.md shows every picture, describes it in words, and shows no other picture.
func TestReadmePictures(t *testing.T) {
	shown := map[string]bool{}
	for _, m := range regexp.MustCompile(`<img [^>]*>|!\[[^]]*\]\([^)]*\)`).FindAllString(doc(t, "README.md"), -1) {
		parts := regexp.MustCompile(`^<img src="` + picturesFolder + `([a-z]+\.png)" width="[0-9]+" alt="([^"]{20,})">$`).FindStringSubmatch(m)
		if parts == nil || pictures[parts[1]] == "" {
			t.Errorf("README.md has the picture %s; want one of %s, with a width and a description for people who cannot see it", m, picturesFolder)
			continue
		}
		shown[parts[1]] = true
	}
	files, err := os.ReadDir("../../" + picturesFolder)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !shown[f.Name()] {
			t.Errorf("README.md does not show %s", f.Name())
		}
	}
	if len(files) != len(pictures) {
		t.Errorf("%s has %d files for %d pictures", picturesFolder, len(files), len(pictures))
	}
}
