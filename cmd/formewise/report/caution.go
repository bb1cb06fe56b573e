package report

// Caution is said wherever type is to be cast or bought. Common practice, no source.
const Caution = "Type metal holds lead: wash hands, no food at the case, no dry sweeping or sanding of old type; " +
	"casting wants ventilation and protection. Local rules and qualified advice come first."
