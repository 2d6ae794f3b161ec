package ruleset

// textureFeatures are features of food that are hard to chew or swallow, after
// the choking features that IDDSI (framework of 2019) tells carers to look for.
func textureFeatures() []string {
	return []string{"hard", "dry", "tough", "stringy", "chewy", "crispy", "sharp", "crumbly",
		"seeds", "skins", "husks", "bones", "round", "sticky", "floppy", "juicy",
		"mixed_thin_and_thick", "crust", "soft_white_bread"}
}

func ruleActions() []string {
	return []string{"replace", "rinse", "drain", "reduce", "omit", "table", "first", "second", "add"}
}

func ratioBys() []string { return []string{"line", "volume", "weight", "piece", "serving", "liquid"} }
