package safety

// kind is what a food is, as far as keeping it matters. Foods have several.
type kind uint32

// Kinds of food.
const (
	redMeat kind = 1 << iota
	pork
	ground
	poultry
	ham
	sausage
	game
	fish
	crustacean
	bivalve
	scallop
	egg
	dairy // milk, cream, fresh cheese
	rice
	grain
	pasta
	pulses
	vegetable
	soup // and stew
	stock
	custard
	quiche
	casserole
	dough // and batter: raw flour
	dry   // baked goods that keep on a shelf
	sweet // sugar keeps it
	acid  // vinegar keeps it
	shelf // keeps on a shelf for hours as it is
)

const (
	meats   = redMeat | pork | ground | poultry | ham | sausage | game
	seafood = fish | crustacean | bivalve | scallop
	// rawSpoils spoils before it is cooked, cookedSpoils afterwards, whatever it is
	// with; lightSpoils afterwards too, but in what is dry, sweet or sour.
	rawSpoils    = meats | seafood | custard
	cookedSpoils = meats | seafood | soup | stock | custard | quiche | casserole
	lightSpoils  = egg | dairy | rice | grain | pasta | pulses | vegetable
	keepers      = dry | sweet | acid
)

// spoils reports whether food of these kinds is such that the two-hour rule is for
// it, cooked or not.
func (k kind) spoils(cooked bool) bool {
	if cooked {
		return k&cookedSpoils != 0 || k&lightSpoils != 0 && k&keepers == 0
	}
	return k&rawSpoils != 0 || k&(egg|dairy) != 0 && k&(keepers|dough) == 0
}

func kindsIn(text string) kind {
	var all kind
	for _, h := range kindWords.find(text) {
		all |= h.value
	}
	return all
}

// kindWords are words of dishes, steps and ingredients. Tools that have food in
// their names stand for nothing.
var kindWords = func() (l lexicon[kind]) {
	l.addAll(0, `egg timer, butter dish, milk pan, fish kettle, fish slice, bread knife, bread basket, stock pot, soup bowl, soup plate, soup spoon, pie dish, cake tin,
		meat thermometer, sauce boat, gravy boat, salad bowl, egg cup, pan of water, rice cooker, pasta water, carving board, oven dish`)
	l.addAll(0, `goose fat, duck fat, beef dripping, bacon fat, fish sauce, oyster sauce, beef tomato, lambs lettuce, crab apple, steak knife, fish knife, fish pan, turkey platter, crab cracker,
		lobster pick, oyster knife, salmon pink, bird chilli, birds eye chilli`)
	l.addAll(stock, `chicken stock, beef stock, fish stock, vegetable stock, chicken broth, beef broth, turkey stock, veal stock, lamb stock, duck stock`)
	l.addAll(pulses, `kidney bean, butter bean`)
	l.addAll(pasta, `pappardelle, fettuccine, fettucine, vermicelli, tagliolini, tagliarini, linguine, capellini, conchiglie, farfalle, fusilli, rigatoni, bucatini, ziti, ditalini, orecchiette, cavatelli, strozzapreti, trofie,
		garganelli, paccheri, casarecce, gemelli, rotini, pici, fregola, tortellini, tortelloni, cappelletti, agnolotti, udon, soba, ramen, somen, chow mein, lo mein, pierogi, maultaschen, wonton, gyoza, carbonara, egg noodle, egg pasta`)
	l.addAll(vegetable, `oyster mushroom, king oyster mushroom`)
	// Verbs that are spelt like foods, and beans that are none.
	l.addAll(0, `rice the, cream the, fish out, bread the, stew the, stock up, ham up, batter the, milk the, vanilla bean, coffee bean, cocoa bean`)
	l.addAll(redMeat, `beef, brisket, veal, lamb, mutton, goat, bison, steak, roast beef, rib roast, sirloin, ribeye, rump, oxtail, ox cheek, short rib, shank, rack of lamb,
		shoulder of lamb, leg of lamb, entrecote, fillet of beef, tenderloin of beef, chuck, bones, marrow bone, meat, liver, kidney, tripe, tongue, stew meat, roulade, goulash meat`)
	l.addAll(pork, `pork, pork belly, pork loin, pork chop, pulled pork, spare rib, crackling, suckling pig`)
	l.addAll(ground, `ground beef, ground pork, ground lamb, ground veal, ground meat, minced beef, minced meat, minced lamb, minced pork, beef mince, lamb mince, pork mince, mince,
		meat loaf, meatloaf, meatball, hamburger, burger, beef burger, kofta, kebab mince, loaf of ground meat`)
	l.addAll(poultry, `chicken, turkey, duck, goose, hen, cornish hen, guinea fowl, quail, poussin, capon, pheasant, poultry, drumstick, chicken breast, chicken thigh, giblet, bird, ground chicken, ground turkey`)
	l.addAll(ham, `ham, gammon, prosciutto, pancetta, bacon, lardon`)
	l.addAll(sausage, `sausage, bratwurst, chorizo, merguez, frankfurter, black pudding`)
	l.addAll(game, `rabbit, hare, venison, deer, boar`)
	l.addAll(fish, `rollmop, skate, kipper, bloater, sprat, whitebait, pilchard, pollock, pollack, whiting, coley, ling, brill, john dory, gurnard, mullet, barramundi, grouper, mahi mahi, sturgeon, zander, brisling, smelts,
		branzino, dorade, saithe, stockfish, bacalao, lox, gravlax, gravadlax, ceviche, matjes, escolar, rockfish, redfish, sablefish, tonnato, bouillabaisse, cioppino, fish, trout, salmon, cod, haddock, halibut, sole, plaice,
		flounder, tuna, mackerel, herring, sardine, sea bass, bass, bream, pike, perch, arctic char, turbot, hake, monkfish, eel,
		anchovy, carp, snapper, tilapia, catfish, swordfish, caviar, roe`)
	l.addAll(crustacean, `crawfish, yabby, crawdad, langostino, gambas, krill, crabmeat, shrimp, prawn, lobster, crab, crayfish, langoustine, scampi, shellfish`)
	l.addAll(bivalve, `whelk, winkle, periwinkle, limpet, geoduck, razor shell, mussel, clam, oyster, cockle`)
	l.addAll(scallop, `conch, abalone, snail, escargot, scallop, squid, octopus, cuttlefish, calamari`)
	l.addAll(egg, `duck egg, quail egg, goose egg, hen egg, egg, yolk, egg white, egg yolk, meringue, mayonnaise, aioli, omelette, omelet, frittata, tortilla de patatas, hollandaise, bearnaise, pavlova, souffle`)
	l.addAll(dairy, `skyr, fromage frais, fromage blanc, petit suisse, smetana, mornay, beurre blanc, chantilly, labneh, stracciatella, milk, cream, buttermilk, yogurt, yoghurt, ricotta, mascarpone, cream cheese,
		cottage cheese, sour cream, creme fraiche, quark, mozzarella, burrata, brie, camembert, goat cheese,
		panna cotta, ice cream, buttermilk ice, feta, whey, kefir, bechamel, white sauce`)
	l.addAll(egg|custard, `semifreddo, bavarois, mousse, tiramisu, sabayon, zabaglione, eggnog, egg nog`)
	l.addAll(custard, `trifle, creme patissiere, syllabub, posset, custard tart, key lime pie, custard, creme brulee, creme anglaise, pastry cream, creme caramel, flan, cheesecake, bread pudding, rice pudding, custard pie,
		cream pie, pumpkin pie`)
	l.addAll(quiche, `quiche, savoury tart, savory tart`)
	l.addAll(casserole, `cannelloni, pastitsio, macaroni cheese, mac and cheese, dauphinoise, casserole, lasagne, lasagna, gratin, moussaka, shepherds pie, cottage pie, pot pie, cassoulet, barley bake, pasta bake,
		vegetable bake, potato bake`)
	l.addAll(rice, `rice, risotto, pilaf, paella, arroz`)
	l.addAll(grain, `barley, bulgur, couscous, quinoa, millet, farro, spelt grain, polenta, grits, porridge`)
	l.addAll(pasta, `pasta, noodle, spaghetti, macaroni, tagliatelle, penne, orzo, dumpling, gnocchi, ravioli, spaetzle`)
	l.addAll(pulses, `bean, lentil, chickpea, white bean, split pea, hummus, falafel, tofu`)
	l.addAll(vegetable, `chip, fries, potato, leek, carrot, celeriac, celery root, parsnip, turnip, swede, beetroot, beet, pumpkin, squash, courgette, zucchini, aubergine, eggplant, cabbage, kale, spinach, chard,
		cauliflower, broccoli, sprout, green bean, pea, mushroom, fennel, artichoke, asparagus, corn, sweet potato, vegetable, mash, ratatouille, caponata, tomato, peppers, bell pepper, butternut`)
	l.addAll(0, `black pepper, white pepper, ground pepper, peppercorn, pepper mill, chilli pepper, cayenne pepper, salt and pepper, fennel seed, tomato paste, tomato puree, corn starch, potato starch`)
	l.addAll(soup, `soup, stew, chilli con carne, chili, curry, goulash, ragu, bolognese, chowder, bisque, hotpot, hot pot, borscht, minestrone, dal, dhal, daube, tagine, fricassee`)
	l.addAll(stock, `stock, broth, gravy, bouillon, jus, pan juices, juices, consomme, meat juices, pan sauce`)
	l.addAll(dough, `dough, batter, pastry, raw pastry, cookie dough, pie crust, crust`)
	l.addAll(dry, `tortilla, taco shell, pitta, pita, naan, baguette, tortilla chip, bread, rolls, bread roll, flatbread, cracker, biscuit, cookie, scone, drop scone, cake, tart, pie, bun, muffin, waffle, pancake, loaf, focaccia, pretzel, brownie, shortbread, tuile, apple crumble,
		fruit crumble, croissant, brioche,
		crouton, popcorn, granola, oat biscuit, apple pie, apple tart, fruit tart, potato roll, potato bread, cornbread`)
	l.addAll(sweet, `chocolate chip, buttercream, caramel, toffee, brittle, praline, syrup, cordial, jam, jelly, marmalade, honey, candy, fudge, nougat, compote, chutney, chocolate, ganache, sorbet, sugar, liqueur`)
	l.addAll(acid, `pickle, pickled, brine, vinegar, pickling, vinaigrette, dressing, mustard dressing, sauerkraut, kimchi, relish, ketchup`)
	l.addAll(shelf, `whipped butter, herb butter, garlic butter, apple butter, peanut butter, cocoa butter, parsley oil, herb oil, chilli oil, nut, hazelnut, walnut, almond, pistachio, pecan, pumpkin seed, seed, sunflower seed,
		apple, pear, plum, quince, peach, cherry, berry, orange, fig, fruit, beer, tea, coffee, juice, apple juice, cheese, parmesan, cheddar, coconut milk, almond milk, oat milk, soy milk, soya milk,
		horseradish, salad, lettuce, leaf, cucumber, radicchio, chicory, cress, punch, lemonade, sangria, cocktail, ice, olive, crumb, breadcrumb`)
	// What food is seasoned and cooked with tells nothing of what the food is.
	l.addAll(0, `butter, oil, fat, salt, spice, herb, parsley, sage, mint, thyme, rosemary, onion, shallot, garlic, ginger, lemon, wine, water, cream of tartar, caper`)
	return l
}()
