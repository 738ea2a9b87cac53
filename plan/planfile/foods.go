package planfile

// foods are the ids that `food` may name: the rows of the consumer table of safe
// minimum internal temperatures (FoodSafety.gov, "Cook to a Safe Minimum
// Internal Temperature", and the USDA FSIS chart of the same name). The
// temperatures themselves belong to plan/safety, which will hold the table.
var foods = []string{
	"whole-red", "whole-pork", "ground-red", "poultry", "ham-raw", "ham-reheat", "ham-reheat-other", "egg", "egg-dish",
	"leftover", "casserole", "rabbit-venison", "fish", "crustacean", "scallop", "bivalve",
}
