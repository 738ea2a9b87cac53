package safety

// addDishes adds what is made of several foods: what is in it as a rule, and what may
// be. Composition: common practice; what a label says comes first.
func addDishes(has func(a allergen, words string), both func(a, b allergen, words string)) {
	may := func(a allergen, words string) { both(0, a, words) }

	// Pasta and noodles.
	has(wheat, `linguine, macaroni, fusilli, farfalle, rigatoni, vermicelli, capellini, conchiglie, bucatini, ziti, ditalini, orecchiette, cavatelli, strozzapreti, trofie, paccheri, casarecce, gemelli, rotini, pici, fregola,
		spaghettini, pastina,
		somen, lo mein, penne, orzo, spaghetti, udon, wheat noodle`)
	both(wheat, eggs, `pasta, noodle, fresh pasta, lasagne sheet, lasagna sheet, gnocchi, dumpling, tagliatelle, pappardelle, fettuccine, fettucine, tagliolini, tagliarini, garganelli, angel hair, maultaschen, wonton, wonton wrapper`)
	both(wheat, eggs|milk, `ravioli, tortellini, tortelloni, cappelletti, agnolotti, mezzelune, pierogi`)
	both(wheat, eggs|soy|sesame, `ramen, ramen noodle, chow mein, gyoza, potsticker, dim sum`)
	has(wheat|eggs, `egg noodle, egg pasta, spaetzle, matzo ball`)
	may(wheat, `soba, soba noodle`) // of buckwheat, often with wheat
	has(0, `rice vermicelli, rice pasta, corn pasta, lentil pasta`)
	both(wheat|milk, eggs|celery, `lasagne, lasagna, cannelloni, pastitsio`)
	both(wheat|milk, mustard|eggs, `macaroni cheese, macaroni and cheese, mac and cheese`)
	both(eggs|milk, wheat, `carbonara`)
	has(fishes, `puttanesca`)

	// Breaded, in batter, in pastry.
	both(wheat, eggs|milk|soy, `nugget, chicken nugget, breaded, crumbed, battered, schnitzel, croquette, goujon, katsu, tonkatsu, tempura, spring roll, arancini`)
	both(fishes|wheat, eggs|milk, `fish finger, fish stick, fish pie`)
	both(fishes, wheat|eggs|milk, `fish cake, fishcake, brandade`)
	both(crustaceans, wheat|eggs, `crab cake, prawn cracker`)
	has(wheat|eggs, `scotch egg, okonomiyaki`)
	both(wheat|milk, eggs, `chicken kiev, cordon bleu, croque monsieur, spanakopita, crostata, welsh rarebit`)
	has(wheat|milk|eggs, `quiche, quiche lorraine, gougere, eclair, popover, blini, crepe, clafoutis, key lime pie, toad in the hole`)
	both(wheat, milk|eggs, `pizza, calzone, samosa, empanada, pasty, vol au vent, crostini, bruschetta, sandwich, strudel, turnover, pot pie, savoury tart, savory tart`)
	both(wheat, milk|soy, `quesadilla, burrito, enchilada, roti, paratha, lavash, panzanella, fattoush, tabbouleh`)
	both(wheat, treeNuts, `kibbeh`)
	may(wheat, `fritter, hash brown, taco, injera, falafel, meat loaf, meatloaf, kofta`)

	// Sauces and dressings.
	has(milk|wheat, `bechamel, white sauce, mornay, mornay sauce`)
	both(milk, wheat, `cheese sauce, parsley sauce, bread sauce`)
	both(milk, sulphites, `beurre blanc, beurre rouge, butter sauce`)
	has(milk, `beurre noisette, beurre noir, beurre manie, chantilly`)
	may(milk|wheat|celery|fishes, `veloute, bisque, chowder`)
	both(molluscs|milk, wheat|celery|fishes, `clam chowder`)
	has(eggs|mustard, `gribiche`)
	both(eggs, wheat|mustard|fishes, `rouille`)
	both(eggs, mustard|milk, `thousand island dressing, coleslaw`)
	both(milk|eggs, mustard, `ranch dressing, mousseline`)
	has(fishes|eggs, `tonnato`)
	has(fishes, `anchoiade`)
	has(fishes|milk, `bagna cauda`)
	may(fishes|mustard|wheat, `salsa verde, gentlemans relish`)
	both(treeNuts, wheat, `muhammara, ajo blanco, tarator`)
	may(treeNuts|wheat, `skordalia`)
	has(celery, `mirepoix, soffritto`)
	may(celery, `bouquet garni, vegetable juice, minestrone, borscht`)
	both(celery, treeNuts|eggs|mustard, `waldorf, waldorf salad`)
	may(eggs|mustard|celery, `potato salad, russian salad`)
	has(fishes|eggs, `nicoise, salade nicoise`)

	// Main dishes.
	both(milk, wheat|eggs, `gratin, dauphinoise, moussaka, cauliflower cheese, fondue, saganaki, aligot, cheese pie`)
	may(milk|wheat|celery|eggs, `casserole, pasta bake, potato bake, vegetable bake, shepherds pie, cottage pie, cassoulet`)
	both(gluten, milk|celery, `barley bake`)
	both(milk, mustard|wheat|sulphites, `stroganoff`)
	both(milk, treeNuts, `korma, butter chicken, tikka masala, kulfi, lassi`)
	may(fishes|crustaceans|molluscs|celery, `paella, gumbo, jambalaya`)
	both(fishes, crustaceans|molluscs|celery|eggs, `bouillabaisse, cioppino`)
	both(fishes, eggs|milk, `kedgeree`)
	may(milk|celery|sulphites, `risotto`)
	may(crustaceans|fishes|peanut|soy, `laksa, tom yum, nasi goreng, bibimbap, bulgogi`)
	has(eggs, `tortilla de patatas, spanish omelette, shakshuka, huevos`)
	may(wheat|celery, `gazpacho, goulash`)

	// Sweets.
	both(milk, eggs|wheat|gluten|treeNuts, `cheesecake`)
	both(milk|eggs|wheat, treeNuts|sulphites, `tiramisu, trifle, bread pudding, bread and butter pudding, sticky toffee pudding, summer trifle`)
	both(milk|eggs, treeNuts|wheat, `semifreddo, baked alaska, bavarois, bavarian cream, eton mess, creme patissiere, creme diplomat, ile flottante`)
	both(milk, eggs, `buttercream, butter icing, parfait, blancmange, tapioca pudding, semolina pudding`)
	may(milk|eggs|soy|treeNuts, `mousse, ganache, chocolate truffle, chocolate sauce, sherbet, pudding, custard powder`)
	both(milk, sulphites, `syllabub, posset, junket, fruit fool, gooseberry fool, rhubarb fool`)
	has(wheat|milk, `gulab jamun`)
	both(milk|eggs|wheat, treeNuts, `brownie, blondie, madeleine, gateau, torte, streusel cake, pumpkin pie, custard pie, cream pie, custard tart`)
	both(eggs|wheat, milk|sulphites, `lemon meringue pie`)
	both(wheat, milk|treeNuts|gluten, `apple crumble, fruit crumble, crumble topping, streusel, cobbler`)
	both(wheat|eggs, treeNuts|milk, `biscotti, cantucci, lebkuchen, stollen, linzer`)
	both(eggs|treeNuts, milk|wheat, `dacquoise, macaron`)
	both(treeNuts, wheat|eggs|milk, `amaretti biscuit, financier, frangipane, florentine, amaretti`)
	both(treeNuts|wheat, milk|sesame|peanut, `baklava`)
	both(gluten, wheat|milk|treeNuts, `flapjack, granola, muesli`)
	may(wheat|treeNuts|sulphites|milk, `mincemeat, plum pudding, turkish delight, rocky road, tuile`)
}
