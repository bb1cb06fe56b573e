package divide

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestNewDivider(t *testing.T) {
	d, err := newDivider("xx", []byte(`% .\patterns{x1y}
\message{not {read}}
\patterns{%
.a1b% a comment \patterns{z1z}
1cd	d2e3 f'1g
}
\hyphenation{q-r-s-t-u}
\patterns{c4d.}\endinput`))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"zza-bz", "zzc-dz", "zzd-e-z", "qrstu", "xxxyxx", "zzz-z"} {
		word := strings.ReplaceAll(want, "-", "")
		switch want {
		case "zza-bz": // .a stands at the beginning of a word alone
			want = "zzabzz"
			word = want
		case "zzc-dz":
			want = "zz-cdzz"
			word = "zzcdzz"
		case "zzd-e-z":
			want = "zzde-zzz"
			word = "zzdezzz"
		case "qrstu":
			want = "qr-stu"
		case "zzz-z":
			want = "zzzzzz"
			word = want
		}
		if got := divided(d, word); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
	if got := divided(d, "zzf'gzz"); got != "zzf'-gzz" {
		t.Errorf("an apostrophe that the patterns have: %s", got)
	}
}
