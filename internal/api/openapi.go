package api

import (
	"net/http"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"potwright/internal/about"
	"potwright/internal/kitchen"
)

var pathName = regexp.MustCompile(`:([a-z_]+)`)

// Document describes every operation as OpenAPI 3.1.
func Document() map[string]any {
	components := newSchemas()
	paths := map[string]any{}
	for _, op := range operations() {
		path := Base + pathName.ReplaceAllString(op.path, "{$1}")
		item, _ := paths[path].(map[string]any)
		if item == nil {
			item = map[string]any{}
			paths[path] = item
		}
		item[strings.ToLower(op.method)] = op.describe(components)
	}
	return map[string]any{
		"openapi": "3.1.0",
		"info": map[string]any{
			"title": "Potwright", "version": Version,
			"summary":     "One pot for a table of different needs",
			"description": "What the pages do, for other programs. " + kitchen.Caution,
			"license":     map[string]any{"name": about.Licence, "identifier": about.Licence},
		},
		"servers":  []any{map[string]any{"url": "/"}},
		"security": []any{map[string]any{}, map[string]any{"token": []any{}}},
		"paths":    paths,
		"components": map[string]any{
			"schemas": components.named,
			"securitySchemes": map[string]any{"token": map[string]any{"type": "http", "scheme": "bearer",
				"description": "A token from the account page; none is needed while no passphrase is set."}},
		},
	}
}

func (op operation) describe(components schemas) map[string]any {
	out := map[string]any{"operationId": op.id, "summary": op.summary}
	var parameters []any
	for _, m := range pathName.FindAllStringSubmatch(op.path, -1) {
		s := schema{"type": "string"}
		if strings.HasSuffix(m[1], "_id") {
			s = schema{"type": "integer", "minimum": 1}
		}
		parameters = append(parameters, map[string]any{"name": m[1], "in": "path", "required": true, "schema": s})
	}
	for _, p := range op.query {
		d := map[string]any{"name": p.name, "in": "query", "required": p.required, "description": p.about, "schema": p.schema}
		if p.many {
			d["explode"] = true
		}
		parameters = append(parameters, d)
	}
	if op.state != nil {
		parameters = append(parameters, map[string]any{"name": "If-Match", "in": "header", "required": false, "schema": schema{"type": "string"},
			"description": "the ETag of what was read; where that was changed since, nothing is done and the answer is 412"})
	}
	if op.open {
		out["security"] = []any{map[string]any{}}
	}
	if parameters != nil {
		out["parameters"] = parameters
	}
	switch {
	case op.takes != "":
		out["requestBody"] = map[string]any{"required": true, "content": content(op.takes, schema{})}
	case op.body != nil:
		out["requestBody"] = map[string]any{"required": true, "content": content("application/json", components.of(reflect.TypeOf(op.body), true))}
	}
	done := map[string]any{"description": http.StatusText(op.status)}
	if op.method == http.MethodGet && op.gives == "" {
		done["headers"] = map[string]any{"ETag": map[string]any{"description": "tells this answer from any other, for If-Match", "schema": schema{"type": "string"}}}
	}
	switch {
	case op.gives != "":
		done["content"] = content(op.gives, schema{})
	case op.answer != nil:
		done["content"] = content("application/json", components.of(reflect.TypeOf(op.answer), false))
	}
	out["responses"] = map[string]any{
		strconv.Itoa(op.status): done,
		"default": map[string]any{"description": "What went wrong and what to do",
			"content": content("application/problem+json", components.of(reflect.TypeFor[problem](), false))},
	}
	return out
}

func content(kind string, s schema) map[string]any {
	return map[string]any{kind: map[string]any{"schema": s}}
}
