package stick

// A pitch is how closely words are spaced where there is a choice. Lines are set evenly; to get a line in on a page, or
// to drive one out, a compositor spaces it closely or widely:
//
//	evenly     The tide was out, and so was the       closely    The tide was out, and so was the ferry-
//	           ferryman. We sat down on the                      man. We sat down on the stones and waited
//	                                                  widely     The tide  was out,  and  so was
//	                                                             the ferryman.  We sat down  on
type pitch uint8

const (
	evenly pitch = iota
	closely
	widely
)

// The widest word space of wide spacing is two thirds of an em: an en and a sixth of an em. Our own choice; no source.
const widestNum, widestDen = 2, 3

// Closely is the same stick with every line ended at the latest place where it may.
func (s *Stick) Closely() *Stick { return s.pitching(closely) }

// Widely is the same stick with every line ended at the earliest place that leaves no word space, on the mean, above two
// thirds of an em. Words are not divided for it where a whole one will do.
func (s *Stick) Widely() *Stick { return s.pitching(widely) }

func (s *Stick) pitching(p pitch) *Stick {
	other := *s
	other.pitch = p
	return &other
}

// pitched is the ending that the pitch asks for; the one that was found evenly where there is none, or none that the spaces at hand can
// fill.
func (j *job) pitched(best ending, measure, over int) ending {
	list := j.endings(measure, over)
	if j.h.stick.pitch == closely {
		for i := len(list) - 1; i >= 0; i-- {
			if j.fills(list[i]) {
				return list[i]
			}
		}
		return best
	}
	part := best
	for _, e := range list {
		if widestDen*e.room > widestNum*e.gaps*j.h.stick.em || !j.fills(e) {
			continue
		}
		if e.at == whole {
			return e
		}
		if part == best {
			part = e
		}
	}
	return part
}
