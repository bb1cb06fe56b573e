package main

import (
	"os"
	"path/filepath"
)

// shopPath is where the shop file is, whether it exists or not: --shop, else
// $FORMEWISE_SHOP, else formewise/shop.db in the user's data folder, which is
// $XDG_DATA_HOME or else .local/share in the home folder. The rule is the same
// on every system, so that one set of instructions serves all.
func (c *counter) shopPath() (string, error) {
	if c.shopGiven {
		if c.shopFlag == "" {
			return "", refuse("--shop: the name of the shop file is empty")
		}
		return c.shopFlag, nil
	}
	if path := c.env("FORMEWISE_SHOP"); path != "" {
		return path, nil
	}
	data := c.env("XDG_DATA_HOME")
	// The XDG Base Directory Specification has a relative path ignored.
	if !filepath.IsAbs(data) {
		home := c.env("HOME")
		if home == "" {
			var err error
			if home, err = os.UserHomeDir(); err != nil {
				return "", refuseWith("name it with --shop FILE or in $FORMEWISE_SHOP",
					"no shop file: there is no home folder to look for it in")
			}
		}
		data = filepath.Join(home, ".local", "share")
	}
	return filepath.Join(data, "formewise", "shop.db"), nil
}
