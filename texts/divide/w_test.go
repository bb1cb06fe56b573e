package divide
import ("testing";"os";"compress/gzip";"io";"bytes")
func emma(t testing.TB) [][]byte { f,_:=os.Open("../../testdata/texts/en-prose-austen-emma.txt.gz"); z,_:=gzip.NewReader(f); all,_:=io.ReadAll(z); var long [][]byte; for _,w:=range bytes.Fields(all){ if len(w)>=6 {long=append(long,w)}}; return long}
