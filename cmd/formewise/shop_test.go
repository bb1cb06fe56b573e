package main

import (
	"path/filepath"
	"testing"
)

func TestShopPath(t *testing.T) {
	home, data := t.TempDir(), t.TempDir()
	tests := []struct {
		name string
		env  map[string]string
		flag string
		want string
	}{
		{"the flag first", map[string]string{"FORMEWISE_SHOP": "env.db", "XDG_DATA_HOME": data, "HOME": home}, "flag.db", "flag.db"},
		{"then the variable", map[string]string{"FORMEWISE_SHOP": "env.db", "XDG_DATA_HOME": data, "HOME": home}, "", "env.db"},
		{"then the data folder", map[string]string{"XDG_DATA_HOME": data, "HOME": home}, "", filepath.Join(data, "formewise", "shop.db")},
		{"a relative data folder is none", map[string]string{"XDG_DATA_HOME": "share", "HOME": home}, "", filepath.Join(home, ".local", "share", "formewise", "shop.db")},
		{"then the home folder", map[string]string{"HOME": home}, "", filepath.Join(home, ".local", "share", "formewise", "shop.db")},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := &counter{
				env:      func(name string) string { return test.env[name] },
				shopFlag: test.flag, shopGiven: test.flag != "",
			}
			if got, err := c.shopPath(); err != nil || got != test.want {
				t.Errorf("%q, %v, want %q", got, err, test.want)
			}
		})
	}

	c := &counter{env: func(string) string { return "env.db" }, shopGiven: true}
	if got, err := c.shopPath(); err == nil {
		t.Errorf("an empty --shop gives %q, want an error", got)
	}
}
