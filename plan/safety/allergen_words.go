package safety

// allergenWords are words of ingredients, and what is in them as a rule. A false
// friend is a phrase that contains nothing ("coconut milk"): the longest phrase wins.
// Composition: common practice; what a label says comes first.
var allergenWords = func() (l lexicon[content]) {
	has := func(a allergen, words string) { l.addAll(content{has: a}, words) }
	may := func(a allergen, words string) { l.addAll(content{may: a}, words) }
	both := func(a, b allergen, words string) { l.addAll(content{has: a, may: b}, words) }

	// False friends.
	has(0, `toast the, rice cake, coconut milk, coconut cream, coconut butter, coconut yogurt, coconut yoghurt, rice milk, cream of tartar, cream of coconut, butter bean, butter lettuce, butterhead, butterfly, buttercup squash, butternut,
		butternut squash, cocoa butter, shea butter, apple butter, buckwheat, buckwheat flour, nutmeg, coconut, water chestnut, tiger nut, nutritional yeast, eggplant, egg plant,
		oyster mushroom, king oyster mushroom, oyster plant, rice flour, corn flour, cornflour, potato flour, chickpea flour, gram flour, tapioca flour, rice noodle, glass noodle, corn tortilla, rice vinegar,
		rice cracker, rice wine, corn syrup, milk thistle, milk cap, fish mint, crab apple, crabapple, egg timer, butter dish, milk pan, fish kettle, fish slice,
		bread knife, bread basket, pie dish, cake tin, nut cracker, nutcracker, nut brown, fish out, cream the, lobster mushroom, soap nut,
		egg cup, sea beans, jackfruit, dragonfruit, vanilla bean, coffee bean, cocoa bean, green bean, white bean, black bean`)

	has(milk, `skyr, fromage frais, fromage blanc, petit suisse, quark cheese, asiago, havarti, jarlsberg, monterey jack, cotija, reblochon, munster, tilsit, appenzeller, vacherin, scamorza, stracchino, stracciatella,
		burrata cheese, tomme, smetana, crema, ayran, milkshake, buttermilk ice, milk, whole milk, skimmed milk, milk powder, dried milk, evaporated milk, condensed milk, dulce de leche, buttermilk, butter, ghee, clarified butter,
		brown butter, cream, single cream, double cream,
		heavy cream, whipping cream, whipped cream, sour cream, clotted cream, creme fraiche, half and half, yogurt, yoghurt, kefir, labneh, quark, curd, curd cheese, cheese, cream cheese, cottage cheese, goat cheese, blue cheese,
		mascarpone, ricotta, mozzarella, burrata, halloumi, feta, parmesan, parmigiano, pecorino, grana padano, gruyere, emmental, comte, cheddar, brie, camembert, roquefort, gorgonzola, stilton, manchego, gouda, edam, paneer, queso,
		fontina, taleggio, provolone, raclette, whey, casein, lactose, milk chocolate, white chocolate, dairy ice cream, fudge, butterscotch, raita, tzatziki, gelato, panna cotta, rice pudding, alfredo`)
	both(milk, eggs, `ice cream`)
	has(eggs, `egg, egg white, egg yolk, yolk, whites, mayonnaise, mayo, aioli, meringue, albumen, albumin, omelette, omelet, frittata, eggnog, advocaat, zabaglione, sabayon, lysozyme, egg wash, remoulade, tartare sauce, tartar sauce,
		royal icing, meringue powder, pavlova`)
	has(eggs|milk, `custard, creme anglaise, creme brulee, creme caramel, pastry cream, lemon curd, hollandaise, bearnaise, flan, souffle`)
	has(fishes, `sole, dover sole, lemon sole, skate, skate wing, rollmop, whiting, coley, ling, brill, john dory, gurnard, red mullet, grey mullet, mullet, barramundi, grouper, mahi mahi, sturgeon, zander, sea trout, brisling,
		smelts, branzino, dorade, saithe, stockfish, bacalao, salt cod, lox, gravlax, gravadlax, fish roe, ceviche, matjes, bloater, escolar, rockfish, redfish, sablefish, fish, salmon, smoked salmon, trout, tuna, cod, haddock,
		halibut, plaice, flounder, mackerel, herring, kipper, sardine, pilchard, anchovy, sea bass, bass, sea bream, bream, turbot, hake, monkfish, perch, pike, carp, eel, sprat,
		whitebait, tilapia, catfish, snapper, swordfish, pollock, pollack, arctic char, caviar, roe, taramasalata, fish sauce, nam pla, fish stock, dashi, bonito, bonito flake, bottarga, isinglass, garum, colatura`)
	both(fishes, wheat|gluten, `worcestershire sauce, worcester sauce`)
	both(fishes, crustaceans|eggs|wheat, `surimi, crab stick, crabstick, fish paste`)
	has(crustaceans, `yabby, crawdad, langostino, gambas, shrimp, prawn, king prawn, tiger prawn, lobster, crab, crab meat, crabmeat, crayfish, crawfish, langoustine, scampi, shrimp paste, belacan, krill, dried shrimp, shrimp stock`)
	has(crustaceans|molluscs, `shellfish`)
	may(fishes|crustaceans|molluscs, `seafood, seafood mix, xo sauce, kimchi`)
	has(molluscs, `limpet, conch, geoduck, razor shell, queen scallop, mussel, clam, oyster, scallop, cockle, whelk, winkle, periwinkle, snail, escargot, squid, calamari, octopus, cuttlefish, squid ink, cuttlefish ink, abalone,
		razor clam`)
	both(molluscs, soy|wheat, `oyster sauce`)
	has(treeNuts, `almond, ground almond, flaked almond, almond flour, almond meal, almond milk, almond butter, almond extract, marzipan, hazelnut, filbert, cobnut, hazelnut oil, walnut, walnut oil, cashew, cashew butter, cashew cream,
		pecan, brazil nut, pistachio, macadamia, macadamia nut, pine nut, pine kernel, pignoli, tree nut, praline paste, gianduja, chocolate hazelnut spread, orgeat, nut butter, nut milk, nut oil, nocino, frangelico, turron`)
	both(treeNuts, peanut, `nut, mixed nut, chopped nut, praline, nut mix`)
	both(treeNuts, eggs|milk, `nougat`)
	may(treeNuts, `chestnut, chestnut puree, amaretto, almond essence`)
	both(milk, treeNuts, `pesto, pesto sauce`)
	has(peanut, `peanut, peanut butter, peanut oil, groundnut, groundnut oil, arachis oil, monkey nut, satay sauce, peanut sauce`)
	both(peanut, soy, `satay`)
	has(wheat, `wheat, flour, plain flour, all purpose flour, bread flour, self raising flour, strong flour, cake flour, wholemeal flour, whole wheat, wholewheat, wheat germ, wheat bran, bran, wheat starch, semolina, durum, durum wheat,
		couscous, bulgur, bulgar, bulghur, freekeh, spelt, spelt flour, khorasan, kamut, farro, einkorn, emmer, seitan, pasta water, breadcrumb, panko, crouton, bread, baguette, ciabatta, focaccia, sourdough, brown bread,
		white bread, toast, pita, pitta, naan, chapati, flour tortilla, matzo, matzah,
		filo, phyllo, filo pastry, pastry, puff pastry, shortcrust pastry, shortcrust, pie crust, pie dough, pizza dough, pizza base,
		cracker, biscuit, digestive biscuit, graham cracker, cookie, ladyfinger, sponge finger, savoiardi, doughnut, crumpet, bagel, pretzel, roux, gingernut, dough, batter`)
	has(wheat|milk|eggs, `brioche, croissant, pancake, waffle, cake, muffin, profiterole, choux, choux pastry, scone, drop scone, sponge cake, panettone, yorkshire pudding`)
	both(wheat, milk|eggs, `cornbread, breadcrumbs, bun, roll, rolls, bread roll, pie, tart, shortbread, wafer, flatbread, stuffing, stuffing mix, tortilla, wrap`)
	has(gluten, `rye, rye flour, barley, pearl barley, barley malt, malt, malt extract, malt vinegar, oat, oatmeal, rolled oat, oat flour, oat milk, oat cream, porridge oat, barley flour, triticale`)
	both(gluten, wheat, `rye bread, pumpernickel, beer, ale, lager, stout, oatcake, oat biscuit`)
	both(gluten, milk, `malted milk`)
	has(soy, `soy, soya, soybean, soya bean, soy bean, edamame, tofu, tempeh, soy milk, soya milk, soy flour, soya flour, soy cream, soy protein, textured vegetable protein, tvp, tamari, natto, soybean oil, soy lecithin,
		soya lecithin, silken tofu, yuba, miso, miso paste`)
	has(soy|wheat, `soy sauce, soya sauce, shoyu, teriyaki sauce, teriyaki, hoisin, hoisin sauce`)
	may(soy, `lecithin, vegetable oil, vegetable protein`)
	has(sesame, `sesame, sesame seed, sesame oil, tahini, tahina, halva, halvah, gomasio, benne seed`)
	both(sesame, treeNuts, `dukkah`)
	has(sesame, `hummus, houmous, zaatar, baba ganoush, furikake`)
	has(celery, `celery, celeriac, celery root, celery seed, celery salt, celery stalk, celery stick, celery leaf, lovage seed`)
	has(mustard, `mustard, dijon mustard, english mustard, wholegrain mustard, mustard seed, mustard powder, mustard oil, mustard leaf, piccalilli`)
	may(mustard, `honey mustard dressing, vinaigrette, salad dressing, dressing, curry powder`)
	has(sulphites, `sulphite, sulfite, sulphur dioxide, sulfur dioxide, metabisulphite, metabisulfite`)
	may(sulphites, `wine, red wine, white wine, sparkling wine, champagne, prosecco, sherry, port, marsala, madeira, vermouth, cider, cider vinegar, wine vinegar, red wine vinegar, white wine vinegar, balsamic vinegar, vinegar,
		dried apricot, dried fruit, raisin,
		sultana, currant, dried fig, prune, candied fruit, candied peel, glace cherry, maraschino cherry, instant potato, pickled onion, dried mushroom, horseradish sauce, grape juice`)
	has(lupin, `lupin, lupin flour, lupini, lupini bean, lupin bean, lupin seed`)

	// Made of many things: ask.
	may(milk|soy|treeNuts|peanut, `dark chocolate, chocolate, chocolate chip, cooking chocolate`)
	may(milk|soy, `margarine, vegetable spread, vegan butter, cocoa mix, caramel, toffee, caramel sauce`)
	may(celery|wheat|gluten|soy|milk, `stock cube, bouillon cube, bouillon, stock powder, vegetable stock, chicken stock, beef stock, stock, broth, gravy, gravy granule, soup mix, instant soup, seasoning, seasoning mix,
		bouillon powder, demi glace`)
	may(wheat|soy|milk|mustard|celery, `sausage, chorizo, meatball, burger, salami, mortadella, black pudding, haggis, pate, liver sausage, frankfurter, ham, bacon, merguez`)
	may(crustaceans|fishes|peanut|treeNuts|soy|mustard|celery, `curry paste, thai curry paste, red curry paste, green curry paste, curry sauce, massaman paste, laksa paste`)
	may(soy|wheat|mustard|celery|fishes, `barbecue sauce, bbq sauce, brown sauce, steak sauce, ketchup, hot sauce, sriracha, chili sauce, chilli sauce, ready made sauce, tomato sauce, marinade`)
	may(wheat|soy|milk|treeNuts|sesame, `cereal, breakfast cereal, cereal bar, crisps, potato chip, snack mix, spread, icing, frosting, sprinkle, marshmallow, jelly sweet, candy`)
	may(wheat, `loaf, crust, baking powder, icing sugar, corn flake, rice crisp`)
	may(fishes|eggs|milk|mustard, `caesar dressing, caesar salad, tapenade, green goddess dressing`)
	may(milk|eggs|soy|treeNuts, `vegan cheese, vegan cream, plant milk, plant cream, egg replacer, meat substitute, veggie burger`)
	may(treeNuts|sesame|peanut, `trail mix, seed mix, romesco, mole, mole sauce, gado gado, pad thai`)
	may(fishes|soy|wheat, `ponzu, teppanyaki sauce, sushi`)
	addDishes(has, both)
	return l
}()
