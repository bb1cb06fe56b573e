#!/bin/sh
# How long a whole check takes beside wc -w and plain TeX, on the same text:
#
#     sh testdata/tex/speed.sh [MB [RUNS]]          (20 MB, 5 runs)
#
# The text is the open English texts of testdata/texts over and over, set at 24
# picas with words divided. Each program runs in turn, RUNS times; of each the
# best time counts, so that a busy machine does not spoil one alone. The marks,
# on two cores: a check takes at most twice the time of wc -w in C.UTF-8 and a
# tenth of TeX's, and at most four times the text in memory.
#
# It wants Go, GNU time, tex with its plain format, and a date that knows
# nanoseconds; Debian has them in golang, time, texlive-base and coreutils.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
mb=${1:-20}
runs=${2:-5}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export CGO_ENABLED=0
(cd "$here" && go build -o "$work/castoff" ./castoff.go && go build -buildvcs=false -o "$work/formewise" ../../cmd/formewise)

font=$here/../fonts/cmr10.csv
set -- "$here/../texts/en-prose-austen-emma.txt.gz" "$here/../texts/en-science-newton-opticks.txt.gz" "$here/../texts/en-bible-kjv.txt.gz"
"$work/castoff" write "$font" "$mb" "$@" >"$work/text.txt"
"$work/castoff" spell "$font" "$mb" "$@" >"$work/text.tex"
cp "$here/speed.tex" "$work"
cd "$work"
./formewise font add cmr10 --shop shop.db --body 10pt --sorts "$font" >added

count() { LC_ALL=C.UTF-8 wc -w text.txt; }
check() { ./formewise check text.txt --shop shop.db --font cmr10 --measure 24pc --lines 40 --divide en || [ $? -eq 1 ]; }
tex_lines() { tex -interaction=batchmode speed; }

# best NAME COMMAND: runs a command, and keeps its time in ms if it is the best of that name so far.
best() {
	start=$(date +%s%N)
	"$2" >"said.$1"
	took=$((($(date +%s%N) - start) / 100000))
	if [ ! -e "best.$1" ] || [ "$took" -lt "$(cat "best.$1")" ]; then
		echo "$took" >"best.$1"
	fi
}
run=0
while [ "$run" -lt "$runs" ]; do
	best wc count
	best check check
	[ "$run" -ge 2 ] || best tex tex_lines # it takes so long that little can spoil it
	run=$((run + 1))
done
env time -f %M -o memory ./formewise check text.txt --shop shop.db --font cmr10 --measure 24pc --lines 40 --divide en >said.check || [ $? -eq 1 ]

awk -v size="$(wc -c <text.txt)" -v wc="$(cat best.wc)" -v check="$(cat best.check)" -v tex="$(cat best.tex)" -v memory="$(tail -1 memory)" 'BEGIN {
	printf "text            %8.1f MB\n", size / 1e6
	printf "wc -w           %8.1f ms  %7.1f MB/s\n", wc / 10, size / wc / 100
	printf "check           %8.1f ms  %7.1f MB/s  %6.2f times wc -w\n", check / 10, size / check / 100, check / wc
	printf "plain TeX       %8.1f ms  %7.1f MB/s  %6.1f times the check\n", tex / 10, size / tex / 100, tex / check
	printf "memory          %8.1f MB  %6.2f times the text\n", memory * 1024 / 1e6, memory * 1024 / size
}'
