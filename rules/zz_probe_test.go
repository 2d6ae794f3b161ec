package rules_test
import ("testing";"os";"strings";"fmt"
"potwright/internal/household"
"potwright/internal/ruleset"
"potwright/rules")
func TestZZProbe(t *testing.T){
 tab := realTable(t); read := reader(tab)
 needs,err := ruleset.LoadNeeds(rules.FS, tab); if err!=nil {t.Fatal(err)}
 b,_ := os.ReadFile("/tmp/cov/probe.txt")
 for _,l := range strings.Split(strings.TrimSpace(string(b)),"\n"){
  m := read(l); g:=0.0; if len(m.Items)>0 {g=m.Items[0].Grams.Mid}
  bad := ""
  for _,k := range []string{"milk","egg","wheat","soy","tree_nut","peanut","fish"} { a,_ := needs.Avoidance(k)
   for _,i := range m.Items { p := a.Judge(household.LineFood{Food:i.Food,Text:m.Reading.Text}).Presence; if p!=household.FreeSoFar { bad += k+":"+string(p)+" " } } }
  fmt.Printf("%-55s -> %-45s %.0f g  %s\n", l, nameOf(m), g, bad)
 }
}
