package stick

// Fills tells whether the stick's spaces can fill room with so many gaps, or with what stands at the line's end where there is none.
func (s *Stick) Fills(gaps, room int) bool {
	if gaps == 0 {
		_, ok := s.fill.quadOut(room)
		return ok
	}
	_, ok := s.fill.fill(gaps, room)
	return ok
}

// Least is the narrowest word space the stick's spaces allow, thousandths of a point.
func (s *Stick) Least() int { return s.fill.least }
