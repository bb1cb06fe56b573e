package divide
import ("testing";"fmt")
func show(d *Divider, w string) string { s:="";p:=0; for _,a:= range d.Places([]byte(w),nil){ s+=w[p:a]+"|";p=a}; return s+w[p:]}
func TestQ(t *testing.T){
 for _,l:=range Languages(){ d,err:=For(l); if err!=nil {t.Fatal(err)}; fmt.Println(l, len(d.trie.nodes), d.alphabet.count)
 for _,w:=range []string{"hyphenation","Hyphenation,","“uncomfortable,”","(well-known)","associates","l'optimisme","l’Académie","philosophari","Wahrscheinlichkeit","phænomena","Gloſſary","manuscript"} {fmt.Print(show(d,w)," ")}; fmt.Println()
 }
}
func BenchmarkOpen(b *testing.B){ for _,l:=range [][2]string{{"en","hyphen.tex"},{"de","hyph-de-1996.tex"},{"fr","hyph-fr.tex"}} { b.Run(l[0],func(b *testing.B){for b.Loop(){open(l[0],l[1])}})}}
func BenchmarkPl(b *testing.B){ 
 for _, l := range []string{"en","de"} {
 d,_:=For(l); ws := emma(b); dst:=make([]int,0,64)
 b.Run(l, func(b *testing.B){ b.ReportAllocs(); i:=0; for b.Loop(){ dst=d.Places(ws[i],dst[:0]); if i++; i==len(ws) {i=0}}; b.ReportMetric(float64(b.N)/b.Elapsed().Seconds()/1e6,"Mwords/s")})
 }
}
