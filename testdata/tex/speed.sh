#!/bin/sh
# How long a whole check takes beside wc -w and plain TeX, on the same text:
#
#     sh testdata/tex/speed.sh [MB [RUNS]]          (20 MB, 5 runs)
#
# The text is the open English texts of testdata/texts over and over, set at 24
# picas with words divided. Each program runs in turn, RUNS times; of each the
# best time counts, so that a busy machine does not spoil one alone; where it is
# busy all the time, what was used on all cores together says more. The marks,
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

# best NAME COMMAND…: runs a command; keeps its time on the clock in tenths of a ms, if it is the best of that name so far, and
# of that run the time on all cores together in s, and the memory in kB.
best() {
	name=$1
	shift
	start=$(date +%s%N)
	env time -f '%U %S %M' -o used "$@" >said || [ $? -eq 1 ]
	took=$((($(date +%s%N) - start) / 100000))
	if [ ! -e "$name" ] || [ "$took" -lt "$(cut -d ' ' -f 1 "$name")" ]; then
		echo "$took $(tail -1 used)" >"$name"
	fi
}
export LC_ALL=C.UTF-8
run=0
while [ "$run" -lt "$runs" ]; do
	best wc wc -w text.txt
	best check ./formewise check text.txt --shop shop.db --font cmr10 --measure 24pc --lines 40 --divide en
	[ "$run" -ge 3 ] || best tex tex -interaction=batchmode speed # it takes so long that little spoils it
	run=$((run + 1))
done

cat wc check tex | awk -v size="$(wc -c <text.txt)" '
{ clock[NR] = $1 / 10; cores[NR] = ($2 + $3) * 1000; memory[NR] = $4 * 1024 }
END {
	printf "text        %8.1f MB\n", size / 1e6
	split("wc -w,check,plain TeX", name, ",")
	for (i = 1; i <= 3; i++)
		printf "%-10s  %8.1f ms  %6.1f MB/s  on all cores together %6.0f ms\n", name[i], clock[i], size / clock[i] / 1000, cores[i]
	printf "check / wc -w       %6.2f  (mark: 2 at most)\n", clock[2] / clock[1]
	printf "check / plain TeX   %6.3f  (mark: 0.1 at most)\n", clock[2] / clock[3]
	printf "memory / text       %6.2f  (mark: 4 at most)\n", memory[2] / size
}'
