package demand

// Took tells how many pieces of a sort of a font a page takes by the tally; pages are numbered as the plan numbers them.
func (s *Setting) Took(number int, font, sort string) int {
	column := 0
	for _, f := range s.stock {
		for _, t := range f.Sorts {
			if f.Name == font && t.Name == sort {
				return s.pages.Table.Page(number-s.plan.FirstPage+1, column)
			}
			column++
		}
	}
	return 0
}
