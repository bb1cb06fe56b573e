#!/bin/sh
# Writes cmr10.csv anew, the sorts of Computer Modern Roman 10 with the set
# widths that TeX knows them by:
#
#     sh testdata/fonts/cmr10.sh >testdata/fonts/cmr10.csv
#
# It wants cmr10.tfm and tftopl; Debian has them in texlive-base and
# texlive-binaries.
set -eu

# Code, sort, text and kind of what is not a letter or figure by its own name.
# The accents, which print nothing by themselves, and the dotless letters are
# left out.
table='
O 0 Gamma Γ capital
O 1 Delta Δ capital
O 2 Theta Θ capital
O 3 Lambda Λ capital
O 4 Xi Ξ capital
O 5 Pi Π capital
O 6 Sigma Σ capital
O 7 Upsilon Υ capital
O 10 Phi Φ capital
O 11 Psi Ψ capital
O 12 Omega Ω capital
O 13 ff ff ligature
O 14 fi fi ligature
O 15 fl fl ligature
O 16 ffi ffi ligature
O 17 ffl ffl ligature
O 31 ß ß lower
O 32 æ æ ligature
O 33 œ œ ligature
O 34 ø ø lower
O 35 Æ Æ ligature
O 36 Œ Œ ligature
O 37 Ø Ø capital
O 41 ! ! point
O 42 ” ” point
O 43 # # sign
O 44 $ $ sign
O 45 % % sign
O 46 & & sign
O 47 ’ ’ point
O 50 ( ( point
O 51 ) ) point
O 52 * * point
O 53 + + sign
O 54 comma , point
O 55 hyphen - point
O 56 . . point
O 57 / / sign
O 72 : : point
O 73 ; ; point
O 74 ¡ ¡ point
O 75 = = sign
O 76 ¿ ¿ point
O 77 ? ? point
O 100 @ @ sign
O 133 [ [ point
O 134 “ “ point
O 135 ] ] point
O 140 ‘ ‘ point
O 173 en_dash – point
O 174 em_dash — point
'

tftopl cmr10.tfm | awk -v table="$table" '
BEGIN {
	n = split(table, rows, "\n")
	for (i = 1; i <= n; i++)
		if (split(rows[i], f, " ") == 5) {
			gsub("_", " ", f[3])
			named[f[1] " " f[2]] = f[3] "," (f[4] == "," ? "\",\"" : f[4]) "," f[5]
		}
	print "sort,text,kind,set,count"
}
/^\(CHARACTER/ { code = $2 " " $3 }
/\(CHARWD/ {
	set = $3
	sub(/\)$/, "", set)
	if (code in named)
		print named[code] "," set ",5000"
	else if (code ~ /^C [0-9]$/)
		print substr(code, 3) "," substr(code, 3) ",figure," set ",5000"
	else if (code ~ /^C [A-Z]$/)
		print substr(code, 3) "," substr(code, 3) ",capital," set ",5000"
	else if (code ~ /^C [a-z]$/)
		print substr(code, 3) "," substr(code, 3) ",lower," set ",5000"
}
END {
	split("3-em quad,3;2-em quad,2;em quad,1;en quad,1/2;thick,1/3;middle,1/4;thin,1/5;hair,1/10", spaces, ";")
	for (i = 1; i <= 8; i++) {
		split(spaces[i], f, ",")
		print f[1] ",,space," f[2] ",5000"
	}
}'
