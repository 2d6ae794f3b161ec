package api

import (
	"encoding"
	"path"
	"reflect"
	"strings"
	"time"

	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// schema is a JSON Schema (draft 2020-12) as OpenAPI 3.1 takes it.
type schema map[string]any

// schemas collects the schemas of named types. A type is described once as it is
// sent and once as it is answered: in what is sent, any field may be left out.
type schemas struct {
	named map[string]any
	types map[string]reflect.Type // whose name it is
}

func newSchemas() schemas { return schemas{map[string]any{}, map[string]reflect.Type{}} }

var (
	textType = reflect.TypeFor[encoding.TextMarshaler]()
	timeType = reflect.TypeFor[time.Time]()
	// panelType writes itself as an object by nutrient.
	panelType = reflect.TypeFor[nutrient.Panel]()
)

// panelAmount is what a panel writes of a nutrient.
type panelAmount struct {
	spread.Range
	// Unknown counts the parts that come on top.
	Unknown int `json:"unknown,omitempty"`
}

// of is the schema of a Go type as encoding/json writes it; named structs are put
// aside and referred to.
func (s schemas) of(t reflect.Type, sent bool) schema {
	switch {
	case t == timeType:
		return schema{"type": "string", "format": "date-time"}
	case t == panelType:
		return schema{"type": "object", "additionalProperties": s.of(reflect.TypeFor[panelAmount](), sent)}
	case t.Kind() == reflect.Pointer:
		return schema{"anyOf": []any{s.of(t.Elem(), sent), schema{"type": "null"}}}
	case t.Implements(textType) || reflect.PointerTo(t).Implements(textType):
		return schema{"type": "string"}
	}
	switch t.Kind() {
	case reflect.Bool:
		return schema{"type": "boolean"}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64, reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return schema{"type": "integer"}
	case reflect.Float32, reflect.Float64:
		return schema{"type": "number"}
	case reflect.String:
		return schema{"type": "string"}
	case reflect.Slice, reflect.Array:
		return schema{"type": []any{"array", "null"}, "items": s.of(t.Elem(), sent)}
	case reflect.Map:
		return schema{"type": []any{"object", "null"}, "additionalProperties": s.of(t.Elem(), sent)}
	case reflect.Struct:
		name := s.name(t, sent)
		if _, seen := s.named[name]; !seen {
			s.named[name] = schema{} // a type within itself refers to it
			s.named[name] = s.object(t, sent)
		}
		return schema{"$ref": "#/components/schemas/" + name}
	}
	return schema{}
}

// name is the type's own name, without what tells documents from other types; where
// another type has it, the package stands before it.
func (s schemas) name(t reflect.Type, sent bool) string {
	name := strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(t.Name(), "Document"), "Answer"), "Body")
	name = upper(name)
	if sent {
		name += "Sent"
	}
	if other, taken := s.types[name]; taken && other != t {
		name = upper(path.Base(t.PkgPath())) + name
	}
	s.types[name] = t
	return name
}

func upper(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

func (s schemas) object(t reflect.Type, sent bool) schema {
	properties, required := schema{}, []any{}
	s.fields(t, sent, properties, &required)
	out := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 && !sent {
		out["required"] = required
	}
	return out
}

// fields adds the fields of a struct; those of an embedded one are its own.
func (s schemas) fields(t reflect.Type, sent bool, properties schema, required *[]any) {
	for f := range t.Fields() {
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case name == "-":
			continue
		case f.Anonymous && name == "":
			s.fields(f.Type, sent, properties, required)
			continue
		case !f.IsExported():
			continue
		case name == "":
			name = f.Name
		}
		properties[name] = s.of(f.Type, sent)
		if !strings.Contains(options, "omitempty") && !strings.Contains(options, "omitzero") {
			*required = append(*required, name)
		}
	}
}

func newOf(like any) any { return reflect.New(reflect.TypeOf(like)).Interface() }
