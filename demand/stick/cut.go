package stick

import "formewise/texts/sorts"

// before is where the paragraph's last line, which goes in up to word k, ends before it: where it has to, or where wide
// spacing drives words out to one more line. Not ok: nowhere.
func (j *job) before(k, measure int) (ending, bool) {
	all := ending{word: k, at: whole}
	if j.h.stick.pitch == widely {
		all = j.pitched(all, measure, k)
	}
	if j.stop < len(j.text) {
		all = j.cut(all, measure)
	}
	return all, all.word < k || all.at != whole
}

// cut ends the line in hand where a line has to end, if the place chosen for it lies beyond. The lines before are set as
// if the text went on, and so is this one, however open it gets. Where the hyphen of a divided word does not go in, the
// whole word is left to the next line; if it is alone on its line, the place is passed over.
//
//	no line has to end     The tide was out, and so was the
//	                       ferryman. We sat down
//	after “so”             The tide  was  out,  and  so
//	                       was the ferryman. We sat down
func (j *job) cut(e ending, measure int) ending {
	words := j.h.words
	after := words[e.word].Next
	if e.at != whole {
		after = j.beyond(e.at)
	}
	if after <= j.stop {
		return e
	}
	k := 0
	for words[k].Next < j.stop {
		k++
	}
	if w := &words[k]; j.stop < w.End {
		at := j.stop
		if at-softHyphenLen > w.begin && j.beyond(at-softHyphenLen) == at {
			at -= softHyphenLen
		}
		room, gaps := j.room(k, measure)
		room += w.Width - j.widthTo(w.begin, at)
		if room >= gaps*j.h.stick.fill.least && room >= 0 {
			return ending{word: k, at: at, room: room, gaps: gaps}
		}
		k--
		for k >= 0 && words[k].Join == sorts.NoBreak {
			k--
		}
		if k < 0 {
			return e
		}
	}
	room, gaps := j.room(k, measure)
	return ending{word: k, at: whole, room: room, gaps: gaps}
}

// beyond is the place where a line goes on that was divided at a place: after the soft hyphen that stands there.
func (j *job) beyond(at int) int {
	if at+softHyphenLen <= len(j.text) && string(j.text[at:at+softHyphenLen]) == "\u00ad" {
		return at + softHyphenLen
	}
	return at
}
