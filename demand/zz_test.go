package demand_test
import ("testing";"os";"encoding/json";"path/filepath";"formewise/demand/internal/trial")
type goldenLine struct { Text string; Picas int; Divided bool; Lines int; Kernless int `json:"lines_kernless"`}
func goldenLines(t testing.TB) []goldenLine { b,err:=os.ReadFile(filepath.Join(trial.Root(),"testdata","tex","castoff.json")); if err!=nil {t.Fatal(err)}; var l []goldenLine; if err:=json.Unmarshal(b,&l);err!=nil{t.Fatal(err)}; return l }
