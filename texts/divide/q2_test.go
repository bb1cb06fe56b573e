package divide
import ("testing";"os";"strings")
func TestG(t *testing.T){ for _, l := range []string{"en","en-ec","en-gb","la","fr","de"} { b,_:=os.ReadFile("/tmp/dv/"+l+".txt"); d,_:=For(strings.TrimSuffix(l,"-ec")); bad:=0
 for _, line:=range strings.Split(strings.TrimSpace(string(b)),"\n") { w,want,_:=strings.Cut(line,"\t"); s:="";p:=0; for _,a:= range d.Places([]byte(w),nil){ s+=w[p:a]+"-";p=a}; s+=w[p:]; if s!=want { bad++; if bad<20 {t.Errorf("%s %s: TeX %s we %s",l,w,want,s)}}}
 t.Log(l,bad) } }
