package pages

import "strings"

// deviceWords tells a browser by what it says of itself (User-Agent), in words that
// its owner knows it by. Only these words are kept.
func deviceWords(says string) string {
	// The first that is found counts: later ones are claimed by the earlier too.
	browser := firstSaid(says, "a browser", "Firefox/", "Firefox", "Edg", "Edge", "OPR/", "Opera", "Chrome/", "Chrome", "Safari/", "Safari", "curl/", "curl")
	system := firstSaid(says, "", "iPhone", "iPhone", "iPad", "iPad", "Android", "Android", "Windows", "Windows", "Mac OS X", "macOS", "CrOS", "ChromeOS", "Linux", "Linux")
	if system == "" {
		return browser
	}
	return browser + " on " + system
}

// firstSaid is the word for the first sign found; signs and words stand in turn.
func firstSaid(says, usual string, pairs ...string) string {
	for i := 0; i+1 < len(pairs); i += 2 {
		if strings.Contains(says, pairs[i]) {
			return pairs[i+1]
		}
	}
	return usual
}
