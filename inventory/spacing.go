package inventory

import (
	"context"
	"fmt"
)

// SpacingFor gives the font that the spaces of a line set in font are drawn from.
// Spacing is cast to a body, not to a face: that is the font of the name choose, or
// for "" that of SpacingIn. A choice that is not there, of another body or without
// spaces is an error.
func (s *Shop) SpacingFor(ctx context.Context, font Font, choose string) (Font, error) {
	if choose == "" {
		all, err := s.Fonts(ctx)
		if err != nil {
			return Font{}, err
		}
		return SpacingIn(all, font)
	}
	chosen, err := s.Font(ctx, choose)
	if err == nil {
		err = suits(chosen, font)
	}
	if err != nil {
		return Font{}, err
	}
	return chosen, nil
}

// SpacingIn finds, among all fonts of a shop, the one that the spaces for font are
// drawn from when none is chosen: the font itself if it has spaces, else the one
// spacing font of its body. None or several of those is an error that says what to do.
func SpacingIn(all []Font, font Font) (Font, error) {
	if font.HasSpaces() {
		return font, nil
	}
	var fit []Font
	var names []string
	for _, f := range all {
		if f.Spacing && f.Body == font.Body && f.HasSpaces() {
			fit, names = append(fit, f), append(names, f.Name)
		}
	}
	body := Points(font.Body)
	switch len(fit) {
	case 0:
		return Font{}, refuse(fmt.Sprintf("`formewise font add %q --body %s --spacing --sorts FILE` adds one", "Spacing "+body, body),
			"font %q has no spaces of its own, and the shop has no spacing font of %s", font.Name, body)
	case 1:
		return fit[0], nil
	}
	return Font{}, refuse(fmt.Sprintf("choose one of them, e.g. --spaces %q", names[0]),
		"font %q has no spaces of its own, and the shop has %d spacing fonts of %s (%s)", font.Name, len(fit), body, list(names))
}

// suits says why spaces cannot be drawn from chosen for font.
func suits(chosen, font Font) error {
	if chosen.Body != font.Body {
		return refuse("choose spaces of the same body with --spaces", "font %q is of %s and cannot space %q, which is of %s",
			chosen.Name, Points(chosen.Body), font.Name, Points(font.Body))
	}
	if !chosen.HasSpaces() {
		return refuse("choose a font that has spaces with --spaces", "font %q has no spaces", chosen.Name)
	}
	return nil
}
