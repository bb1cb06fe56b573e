#!/bin/sh
# How many lines plain TeX makes of a text, paragraph by paragraph, for
# comparing with package demand:
#
#     sh testdata/tex/castoff.sh TEXT          (a text of testdata/texts, such as en-prose-austen-emma)
#
# prints a row for each paragraph: the lines it makes at 12, 18, 24 and 30
# picas, each divided and not, and then the same with a copy of cmr10 whose
# kerns are nothing. castoff.tex has the rest of what is asked of TeX. To make
# the golden files anew:
#
#     sh testdata/tex/castoff.sh golden
#
# It wants Go, tex with its plain format, tftopl and pltotf; Debian has them in
# texlive-base and texlive-binaries.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
what=${1:?which text, or golden}
golden='en-prose-austen-emma en-science-newton-opticks la-prose-cicero-de-finibus en-bible-kjv'

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
(cd "$here" && go build -o "$work/castoff" ./castoff.go)
tftopl cmr10.tfm | sed 's/\(KRN [CO] [^ ]* R \)[-.0-9]*/\10.0/' >"$work/kernless.pl"
pltotf "$work/kernless.pl" "$work/kernless.tfm" 2>/dev/null

# lines TEXT: the rows for a text.
lines() {
	"$work/castoff" spell "$here/../fonts/cmr10.csv" 0 "$here/../texts/$1.txt.gz" >"$work/text.tex"
	for face in cmr10 kernless; do
		if ! (cd "$work" && tex -interaction=batchmode "\\def\\face{$face}\\input $here/castoff" >terminal); then
			echo "castoff.sh: tex stopped:" >&2
			grep -A 3 '^!' "$work/castoff.log" >&2 || cat "$work/terminal" >&2
			exit 1
		fi
		mv "$work/lines.tsv" "$work/$face"
	done
	paste -d '' "$work/cmr10" "$work/kernless" | sed 's/ $//' | tr ' ' '\t'
}

if [ "$what" != golden ]; then
	lines "$what"
	exit
fi
for text in $golden; do
	lines "$text" | gzip -9n >"$here/castoff-$text.tsv.gz"
	set -- "$@" "$text=$here/castoff-$text.tsv.gz"
done
shift
"$work/castoff" sum "$@" >"$here/castoff.json"
