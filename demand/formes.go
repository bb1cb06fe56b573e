package demand

import (
	"formewise/demand/impose"
)

// Formes lists the formes of the work in by-formes setting order, with pages as the plan numbers them.
func (s *Setting) Formes() []impose.Forme {
	formes := impose.Formes(s.Pages(), s.plan.Imposing)
	for _, f := range formes {
		for i := range f.Pages {
			f.Pages[i] += s.plan.FirstPage - 1
		}
	}
	return formes
}
