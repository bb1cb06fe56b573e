package demand_test
import ("testing";"os";"fmt";"math";"encoding/json";"path/filepath";"formewise/demand/internal/trial";"formewise/texts/sorts";"formewise/demand/stick";"bufio";"compress/gzip";"strings";"strconv";"bytes";"unicode/utf8";"unicode")
type goldenLine struct { Text string; Picas int; Divided bool; Lines int; Kernless int `json:"lines_kernless"`}
func goldenLines(t testing.TB) []goldenLine { b,err:=os.ReadFile(filepath.Join(trial.Root(),"testdata","tex","castoff.json")); if err!=nil {t.Fatal(err)}; var l []goldenLine; if err:=json.Unmarshal(b,&l);err!=nil{t.Fatal(err)}; return l }
func goldPar(t testing.TB, name string) [][]int { f,err:=os.Open(filepath.Join(trial.Root(),"testdata","tex","castoff-"+name+".tsv.gz")); if err!=nil {t.Fatal(err)}; z,_:=gzip.NewReader(f); s:=bufio.NewScanner(z); var r [][]int; for s.Scan() { var row []int; for _,x:=range strings.Fields(s.Text()) { n,_:=strconv.Atoi(x); row=append(row,n)}; r=append(r,row)}; return r}

type fitter struct { cutter *sorts.Cutter; divider stick.Divider; least, measure, indent int; dst []int }
func (f *fitter) width(g *sorts.Galley, text []byte, a, b int) int { g.Clear(); return f.cutter.Word(g,text,a,b,math.MaxInt).Width }
func (f *fitter) lines(text []byte) int {
 var g sorts.Galley
 n:=1; room:=f.measure-f.indent; first:=true
 _,hyphen:=f.cutter.Hyphen()
 at:=f.cutter.Skip(text,0)
 for {
  g.Clear()
  w:=f.cutter.Word(&g,text,at,len(text),math.MaxInt)
  if w.Width<=room { room-=w.Width; first=false; if w.Join==sorts.End {return n}; if w.Join!=sorts.Dash {room-=f.least}; at=w.Next; continue }
  // divide
  if f.divider!=nil {
   b:=at; for b>0 { r,k:=utf8.DecodeLastRune(text[:b]); if !unicode.IsLetter(r) {break}; b-=k }
   hy := bytes.ContainsAny(text[b:w.End],"-") || b>0&&text[b-1]=='-'
   if !hy {
   f.dst=f.divider.Places(text[b:w.End],f.dst[:0])
   found:=-1
   for i:=len(f.dst)-1;i>=0;i-- { p:=b+f.dst[i]; if p<=at {break}; if f.width(&g,text,at,p)+hyphen<=room { found=p; break } }
   if found>=0 { at=found; n++; room=f.measure; first=true; continue }
   }
  }
  if first { // overfull
   if w.Join==sorts.End {return n}
   at=w.Next; n++; room=f.measure; first=true; continue }
  n++; room=f.measure; first=true
 }
}
func TestFF(t *testing.T) {
 for _,scale := range []int{1,1000} {
 body:=10000*scale
 var font sorts.Font; font.Body=body; font.Name="x"
 for _,s:=range cmr10(t,body).Sorts { font.Sorts=append(font.Sorts,sorts.Sort{Name:s.Name,Text:s.Text,Space:s.Kind=="space",Width:(s.Set*body+500000)/1000000}) }
 cases,err:=sorts.Lay(font); if err!=nil {t.Fatal(err)}
 cutter,err:=sorts.NewCutter(cases,0); if err!=nil {t.Fatal(err)}
 for _,name := range []string{"en-prose-austen-emma","en-science-newton-opticks","la-prose-cicero-de-finibus","en-bible-kjv"} {
  gold:=goldPar(t,name)
  copy:=trial.Copy(t,plainText(t,name),false)
  if len(gold)!=len(copy.Paragraphs) {t.Fatal(name,len(gold),len(copy.Paragraphs))}
  for i,picas := range []int{12,18,24,30} { for k,div:=range []bool{true,false} {
   for _,slack := range []int{0,1,10} {
   f:=&fitter{cutter:cutter,least:2222*scale+scale*222/1000,measure:picas*12000*scale+slack*scale,indent:10000*scale}
   if div {f.divider=english(t,true)}
   more,less:=0,0
   for p,par:=range copy.Paragraphs { n:=f.lines(par.Text); if n>gold[p][8+2*i+k] { more++; if slack==10&&scale==1000 {fmt.Printf("%s %d %v par %d: ff %d tex %d %.300q\n",name,picas,div,p,n,gold[p][8+2*i+k],par.Text)}}; less+=gold[p][8+2*i+k]-n}
   fmt.Println(name,scale,picas,div,slack,"more:",more,"fewer lines",less)
  }}}
 }
 }
}
