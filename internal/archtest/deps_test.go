package archtest

import (
	_ "github.com/chromedp/chromedp"
	_ "github.com/gin-gonic/gin"
	_ "github.com/jba/templatecheck"
	_ "github.com/pressly/goose/v3"
	_ "github.com/rogpeppe/go-internal/testscript"
	_ "github.com/stretchr/testify/require"
	_ "go.yaml.in/yaml/v4"
	_ "golang.org/x/net/html"
	_ "golang.org/x/text/unicode/norm"
	_ "gorm.io/driver/sqlite"
	_ "gorm.io/gorm"
	_ "modernc.org/sqlite"
	_ "pgregory.net/rapid"
)
