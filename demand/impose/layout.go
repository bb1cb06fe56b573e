package impose

// Layout gives a forme as it lies on the stone: its rows from the top, with the pages of the work that lie there. Pages
// beyond the end of the work are among them: on the stone their places are blank. Nil when the sheet (from 1) has no such
// side. A forme worked in parts is laid out whole.
//
//	Layout(quarto, 2, "outer")     12 13     rotation 180
//	                                9 16
func Layout(p Plan, sheet int, side string) []Row {
	if sheet < 1 {
		return nil
	}
	s := p.scheme()
	before := (Gathering(p, sheet) - 1) * s.pages * p.In
	inGathering := (sheet-1)%p.In + 1
	for _, forme := range s.sides {
		if forme.name != side {
			continue
		}
		rows := make([]Row, len(forme.rows))
		for r, row := range forme.rows {
			rows[r] = Row{Rotation: row.Rotation, Pages: make([]int, len(row.Pages))}
			for c, i := range row.Pages {
				rows[r].Pages[c] = before + quire(i, inGathering, s.pages, p.In)
			}
		}
		return rows
	}
	return nil
}
