package server

import (
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// Front is how the server is reached from outside.
type Front struct {
	// Address is host:port to listen on; port 0 takes a free one.
	Address string
	// Hosts are the names it answers to besides the address's own.
	Hosts []string
	// Cert and Key are files for HTTPS; "" for none.
	Cert, Key string
	// Forwarded is set where a server in front takes HTTPS and passes requests on,
	// with the address they came from last in X-Forwarded-For.
	Forwarded bool
	// Ready is told the address once it is open; nil for nobody.
	Ready func(at net.Addr)
}

// Secure reports whether browsers come by HTTPS.
func (f Front) Secure() bool { return f.Cert != "" || f.Forwarded }

// Private reports whether this computer alone comes here: it listens on loopback, and
// no other name or server in front leads others to it.
func (f Front) Private() bool {
	return checkLoopback(f.Address) == nil && !f.Forwarded && len(f.Hosts) == 0
}

// Answers reports whether the server answers to a name that a request was sent to. A
// name on the net that someone points at this computer would otherwise let their page
// read ours; a bare IP address can't be pointed elsewhere.
func (f Front) Answers(host string) bool {
	host = hostOf(host)
	own, err := netip.ParseAddr(hostOf(f.Address))
	ip, ipErr := netip.ParseAddr(host)
	switch {
	case host == "localhost" || ipErr == nil && ip.IsLoopback():
		return true
	case ipErr != nil && err != nil && host != "" && host == hostOf(f.Address):
		return true // the name that the address was given by
	case ipErr == nil && err == nil && (own.IsUnspecified() || own == ip):
		return true
	case ipErr == nil && f.Address != "" && hostOf(f.Address) == "":
		return true // ":8097" is every address of this computer
	}
	return slices.ContainsFunc(f.Hosts, func(h string) bool { return strings.EqualFold(h, host) })
}

// hostOf is the host of host:port or of a host alone.
func hostOf(address string) string {
	if name, _, err := net.SplitHostPort(address); err == nil {
		address = name
	}
	return strings.ToLower(strings.Trim(address, "[]"))
}

// cameFrom is the network that a request comes from: an IPv4 address, or the 64 bits
// of an IPv6 network, of which one visitor has all addresses.
func (f Front) cameFrom(r *http.Request) string {
	from := hostOf(r.RemoteAddr)
	if passed := r.Header.Values("X-Forwarded-For"); f.Forwarded && len(passed) > 0 {
		all := strings.Split(passed[len(passed)-1], ",")
		from = strings.TrimSpace(all[len(all)-1])
	}
	ip, err := netip.ParseAddr(from)
	if err != nil {
		return "unknown"
	}
	if ip = ip.Unmap(); ip.Is6() {
		network, _ := ip.WithZone("").Prefix(64)
		return network.String()
	}
	return ip.String()
}
