package ruleset

import (
	"fmt"

	yaml "go.yaml.in/yaml/v4"
)

// fields are the entries of a mapping: of a key written twice the first.
type fields struct{ value }

// list gives the entries of a list; an absent one has none.
func (v value) list() []value {
	if v.absent() {
		return nil
	}
	if v.node.Kind != yaml.SequenceNode {
		v.fault("found "+v.quoted(), "a list")
		return nil
	}
	out := make([]value, 0, len(v.node.Content))
	for _, n := range v.node.Content {
		e := value{src: v.src, node: n}
		if e.absent() {
			e.fault("an empty entry", "something or no entry")
			continue
		}
		out = append(out, e)
	}
	return out
}

// texts reads a list of words.
func (v value) texts() []string {
	var out []string
	for _, e := range v.list() {
		if s := e.text(); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// words reads a list of which every entry must be one of allowed.
func (v value) words(what string, allowed []string) []string {
	var out []string
	for _, e := range v.list() {
		if s := e.word(what, allowed); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// mapping gives the entries of a mapping whose keys must all be allowed; no
// allowed keys means any. An absent value has no entries.
func (v value) mapping(allowed ...string) fields {
	if v.absent() {
		return fields{value{src: v.src}}
	}
	if v.node.Kind != yaml.MappingNode {
		v.fault("found "+v.quoted(), "a mapping of keys to values")
		return fields{v}
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		v.checkKey(v.node.Content[i], allowed, seen)
	}
	return fields{v}
}

// checkKey looks at a key of a mapping; seen are those before it.
func (v value) checkKey(key *yaml.Node, allowed []string, seen map[string]bool) {
	at := value{src: v.src, node: key}
	if key.Kind != yaml.ScalarNode || key.Value == "" {
		at.fault("key "+at.quoted()+" is not a word", "a key")
		return
	}
	if len(allowed) > 0 && !contains(allowed, key.Value) {
		at.unknownKey(key.Value, allowed)
		return
	}
	if seen[key.Value] {
		at.fault(fmt.Sprintf("key %q is written twice", key.Value), "one of each")
	}
	seen[key.Value] = true
}

func (v value) unknownKey(key string, allowed []string) {
	if problem, ok := v.src.forbidden[key]; ok {
		v.fault(fmt.Sprintf("key %q: %s", key, problem), "no such key")
		return
	}
	v.faultWord("key", key, allowed)
}

// at is the place of a key in the mapping's content, -1 where it is not there.
func (m fields) at(key string) int {
	if m.node == nil || m.node.Kind != yaml.MappingNode {
		return -1
	}
	for i := 0; i+1 < len(m.node.Content); i += 2 {
		if k := m.node.Content[i]; k.Kind == yaml.ScalarNode && k.Value == key {
			return i
		}
	}
	return -1
}

// get is the value of a key, absent where the key is not there.
func (m fields) get(key string) value {
	i := m.at(key)
	if i < 0 {
		return value{src: m.src}
	}
	v := value{src: m.src, node: m.node.Content[i+1]}
	if v.node.Kind == yaml.AliasNode {
		v.fault("found the alias "+v.quoted(), "the value itself")
		v.node = nil
	}
	return v
}

// need is the value of a key that must be there; without it the fault stands at
// the mapping.
func (m fields) need(key string) value {
	v := m.get(key)
	if v.absent() && m.node != nil && m.node.Kind == yaml.MappingNode {
		m.fault(fmt.Sprintf("missing %q", key), "a value for it")
		v.node = nil
	}
	return v
}

// has reports whether the key is written, even if with nothing.
func (m fields) has(key string) bool { return m.at(key) >= 0 }

// keyAt is a key itself, for what is wrong with it.
func (m fields) keyAt(key string) value {
	if i := m.at(key); i >= 0 {
		return value{src: m.src, node: m.node.Content[i]}
	}
	return m.value
}

// order is the keys in the order written.
func (m fields) order() []string {
	var out []string
	if m.node == nil || m.node.Kind != yaml.MappingNode {
		return nil
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(m.node.Content); i += 2 {
		if k := m.node.Content[i]; k.Kind == yaml.ScalarNode && k.Value != "" && !seen[k.Value] {
			seen[k.Value] = true
			out = append(out, k.Value)
		}
	}
	return out
}
