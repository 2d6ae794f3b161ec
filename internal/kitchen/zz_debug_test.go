package kitchen_test
import ("fmt";"os";"testing";"sort"
"potwright/internal/composition"
"potwright/internal/household"
"potwright/internal/swap"
"potwright/internal/testkit")
func TestZZDebug(t *testing.T){
 k := testkit.Kitchen(t)
 all := everyLine(t)
 out,_ := os.Create("/tmp/cov/debug.txt"); defer out.Close()
 for _, key := range []string{"milk","egg","wheat","soy","tree_nut","peanut","fish"} {
  avoid,_ := k.Needs.Avoidance(key)
  for _,l := range all { if presence(avoid,l.line.Matched)!=household.Contains {continue}
   var c coverage; c.add(l,1,func(o swap.Option)bool{return freeOf(avoid,o)})
   if c.kept==0 { fmt.Fprintf(out,"%s\t%s\t%s\n",key,l.food().Name,l.text()); for _,o:=range l.options{ fmt.Fprintf(out,"\t\t%s %q",o.Rule.ID,o.Text); for _,m:=range o.Lines{fmt.Fprintf(out," %s",presence(avoid,m))}; fmt.Fprintln(out)}}
  }}
 sort.SliceStable(all,func(i,j int)bool{return all[i].line.Panel[composition.Sodium].Mid>all[j].line.Panel[composition.Sodium].Mid})
 var total,sum float64
 for _,l:=range all{total+=l.line.Panel[composition.Sodium].Mid}
 for _,l:=range all{ if sum>=0.8*total{break}; sum+=l.line.Panel[composition.Sodium].Mid
  var c coverage; c.add(l,2,l.lowers)
  if c.kept==0 { fmt.Fprintf(out,"sodium\t%s\t%s\t%.0f\n",l.food().Name,l.text(),l.line.Panel[composition.Sodium].Mid); for _,o:=range l.options{ fmt.Fprintf(out,"\t\t%s %q lowers=%v\n",o.Rule.ID,o.Text,l.lowers(o))}}
 }
}
