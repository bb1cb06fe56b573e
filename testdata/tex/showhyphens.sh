#!/bin/sh
# What TeX's \showhyphens says of the words of a language, to hold against
# package divide:
#
#     sh testdata/tex/showhyphens.sh LANGUAGE        (en en-ec en-gb la fr de)
#
# prints a line for each word: the word as it is printed in the text, a tab,
# the same word divided with hyphens. To make the golden files anew:
#
#     cd testdata/tex
#     for l in en en-ec en-gb la fr de; do
#         sh showhyphens.sh $l | gzip -9n >showhyphens-$l.txt.gz
#     done
#
# It wants Go and tex with its plain format, and for all but en tftopl, pltotf,
# conv-utf8-ec.tex and the font ecrm1000; Debian has them in texlive-base and
# texlive-binaries.
#
#   en      plain TeX as it comes, with its own patterns, on words of ASCII
#   en-ec   the same patterns, on words with other letters
#   others  plain TeX with the pattern file of the language instead of its own
#
# Where the texts of a language have too few words, those of another are
# divided too: to TeX they are letters like others. There is no German text;
# words-de.txt is a list of our own making.
set -eu

cd "$(dirname "$0")"
patterns=../../texts/divide/patterns
bible=../texts/en-bible-kjv.txt.gz
emma=../texts/en-prose-austen-emma.txt.gz
opticks=../texts/en-science-newton-opticks.txt.gz
cicero=../texts/la-prose-cicero-de-finibus.txt.gz
candide=../texts/fr-prose-voltaire-candide.txt.gz

language=${1:-}
case $language in
en) file=hyphen.tex from="ascii $bible $emma $opticks" ;;
en-ec) file=hyphen.tex from="accents $opticks $candide words-de.txt" ;;
en-gb) file=hyph-en-gb.tex from="letters $bible $emma $opticks" ;;
la) file=hyph-la.tex from="printed $cicero" ;;
fr) file=hyph-fr.tex from="printed $candide letters $cicero" ;;
de) file=hyph-de-1996.tex from="printed words-de.txt letters $emma $cicero" ;;
*)
	echo "showhyphens.sh: language \"$language\" (there are en, en-ec, en-gb, la, fr, de)" >&2
	exit 2
	;;
esac

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
go build -o "$work/words" ./showhyphens.go
# shellcheck disable=SC2086 # $from is a list
"$work/words" choose $from >"$work/list"
"$work/words" spell <"$work/list" >"$work/words.tex"
cp showhyphens.tex cork.tex "$work"
cp "$patterns/$file" "$work/patterns.tex"
cd "$work"

# run ARGUMENT…: tex, with room in the log for every word on one line.
run() {
	if ! max_print_line=1000 tex -interaction=batchmode -jobname=showhyphens "$@" >terminal; then
		echo "showhyphens.sh: tex has failed:" >&2
		grep -A 3 '^!' showhyphens.log >&2 || cat terminal >&2
		exit 1
	fi
}

if [ "$language" = en ]; then
	run '\input showhyphens'
else
	# TeX divides a ligature in one place only, where “af-f-lic-tion” wants two:
	# the font is to have none.
	tftopl "$(kpsewhich ecrm1000.tfm)" 2>terminal |
		awk '/^\(LIGTABLE/ { skip = 1 } !skip { print } skip && /^ *\)$/ && !/^    / { skip = 0 }' >loose.pl
	pltotf loose.pl loose.tfm >terminal 2>&1
	# plain.tex reads hyphen.tex: it is to find the patterns of the language.
	cat >hyphen.tex <<-'END'
		\begingroup
		\lccode`\'=`\' % French patterns have it
		\input conv-utf8-ec
		\input patterns
		\endgroup
	END
	if [ "$language" = fr ]; then
		printf '%s\n' '\lccode39=39 % the apostrophe is a letter' >>cork.tex
	fi
	run -ini '\input plain \input cork \input showhyphens'
fi
"$work/words" read list <showhyphens.log
