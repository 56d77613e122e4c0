"""2048 plain English words, eleven bits each, for comparing keys aloud and for writing a secret down.

Chosen for this project: four to nine letters, no two that differ by one letter, one swap or a short ending. The order
is alphabetical and never changes, since a word stands for its place.
"""
from __future__ import annotations

_LIST = """
absent absorb accept account achieve acorn acrobat across active actor actual adapt address adjust admire admit
adult advance advice aerial affair afford again agenda agile agree airport airy album alert algebra alloy almond
almost alone alpha alpine already always amaze amuse anchor ancient animal ankle annual answer antelope antique
antler anybody anyway appear applaud apple approve apricot apron aquatic arcade arch arctic arena argue arise
armchair armour around arrange arrive arrow article artist artwork ascent ashore aside aspect asphalt assist athlete
atlas atom attach attempt attend attic auction audio august aunt author autograph autumn avenue average avocado
awake award awning axle baboon baby backpack backyard badge bagel bagpipe baker balance balcony ballad balloon
bamboo banana bandage banjo banner banquet barefoot bargain barista barley barn barrel baseball basement basil
basket bassoon bathtub baton battery bazaar beach beacon beam beans beautiful beaver become bedrock bedroom beehive
beetle beginner behave believe bellows belong belt beneath benefit beret berry beside between beverage beyond
bicycle billiard binder birch birdcage birthday biscuit bison blackbird blanket blazer blend blink bloom blossom
blouse blow bluebell blueberry board boat bobbin boiler bold bonfire bonnet bonsai bonus bookcase bookmark border
botany bottle boulder bounce bouquet bowl boxer bracelet bramble branch brass bravo bread breakfast breeze brick
bridge brief bright brilliant bring broccoli bronze brook brother brown brush bubble bucket buckle budget buffalo
buffet bugle builder bulb bundle bungalow business busker busy butcher butter button buyer buzzard bypass cabbage
cabin cable cactus cadet cafe calcium calendar calf camel camera campfire canal canary candid candle candy canoe
canteen canter canvas canyon capital capsule captain caption caramel caravan carbon cardigan careful cargo caribou
carnival carol carpenter carpet carriage carrot carry cart cartoon carve cashew cashier castle casual catalogue
catch cauldron cautious cavalry cedar ceiling celebrate celery cellar cello central century ceramic cereal chain
chalk chamber champion change channel chant chapter charcoal chariot charm cheddar cheerful cheese cheetah chemist
cherry chess chestnut chicken chief child chilly chime chimney china chipmunk chisel chocolate choice choir chorus
chuckle chutney cider cinema cinnamon circle circuit circus citizen citrus city clarify clarinet classic clay clean
clerk client cliff climate climb clock cloth clothing cloud clover clown coach coast cobalt cobbler cobweb cockpit
cocoa coconut code coffee coin collect college colony colour column comb comet comfort comma common company compare
compass compete compose computer concert conduct confetti congress connect consider console contain content continue
contour control convoy cook copper copy coral cordial corduroy corner correct costume cottage cotton council country
courage courier court cousin cowboy coyote crab cracker cradle craft crane crayon cream credit creek crescent crest
crew cricket crisp critic crochet crocus croissant croquet crossing crowd cruise crumble crystal cube cuckoo
cucumber cupboard curator curious curl current curtain cushion custard custom cycle cyclist cylinder cymbal cypress
daffodil dahlia daisy damp dancer dancing daring dash data daughter dawn daylight debate decade december decimal
deckchair declare decor deep defend degree delicate delight deliver delta demand denim depart deposit depot deputy
describe desert design desire desk detail detect develop device devote dexterity diagram dial dialect diamond diary
digest digital dimple dinghy dingo dinner dinosaur diploma direct discover discuss display distant district divide
document dollar dolphin domain domino donate donkey doorbell doorway dormouse double dough dove dozen dragon drama
drawer dresser drift drink driver drizzle drop drum duchess duck duke dumpling dungeon durable duration dusty duvet
dwelling dynamo eager eagle early earnest earring earth easel easily easy eaten ebony echo eclipse economy editor
educate effect effort eggshell either elastic elbow elder elect elegant element elephant elevator eleven elite
embark ember emblem embrace emerald emerge emotion emperor empire employ empty enable enamel enchant encore endive
endless endorse energy engage engine enjoy enormous enough enrich enrol ensemble ensure enter entire entrance entry
envelope episode equal equator equip erase errand escalator escape escort essay establish estate estimate estuary
eternal evening event ever evergreen everyone evidence evolve exact examine example excel except excite exclaim
excuse exhale exhibit exist exotic expand expect explain explore export express extra eyebrow eyelash eyelid fabric
factory faculty fair falcon familiar family famous fancy fanfare fantasy farewell farmer fashion fast father fathom
fearless feature february federal feeling fence fern fertile festival fiction fiddle field fiesta fifteen fifty
figure filament filbert film filter final finch find finger finish firefly fireplace fireside first fisher fitness
five flag flamingo flannel flask flavour fleece flexible flicker flint float floor flora florist flower fluent
fluffy fluid flute focus foggy folder foliage food football footpath forehead foreman forest forever forge fork
formal formula fortune forty forum forward fossil foundry fountain foxglove foyer fraction fragrant frame frank
freckle free freedom freight fresh friday friend frigate fringe frog frontier frost frozen frugal fruit fuchsia
fudge fuel funnel funny furnace furniture furrow future gadget galaxy gale gallery gallon gander gannet garage
garden garland garlic garment gauge gazelle gemstone general generous genius gentle geology geranium gerbil giant
giggle ginseng giraffe giving glacier glad glance glass gleam glider glimpse glisten glitter globe glorious glossy
gnome goal goblet goggles golden goldfish golf gondola goose gorilla graceful gradual graduate grain grammar granary
grand grandson granite granola grape grapevine graphite gravel gravy great greenfly griddle grocer groom grotto
group grove grow guard guest guide guinea guitar gumboot gusto gymnast gypsum habit haddock hairpin halibut hallway
halo halve hammer hammock hand handbag handmade happen happy harbour hardware harmony harness harp harpoon harvest
hatbox hawk hawthorn hazel hazelnut head headland healthy heater heavy hectare hedge hedgehog height heirloom helium
helmet helpful hemp herald herb heritage heron hickory hidden highway hike hilltop hinge hippo historic history
hobby hockey holiday hollow homely homework honest honey honour hooray hope hopeful horizon hornet horse hostel hour
hover hubbub huge hull human humid hummus hundred hunter hurdle hurry husky hustle hyacinth hydrant hymn ibex
iceberg icebox icicle idea identity idle idyllic igloo image imagine impact imply import impress improve include
income indeed index indigo indoor industry infant inform inhale initial inkwell inquire insect inside inspire
instant instead intend interior intro invent invite inward iris iron island issue italic item ivory jacket jackpot
jade jaguar jamjar january jargon jasmine javelin jazz jelly jellyfish jersey jest jetty jewel jigsaw jingle jostle
journal journey joyful joyous jubilee juggler juice jumble jumper june junior juniper jury justice kangaroo kayak
keen keeper kelp kennel kestrel ketchup kettle keyboard keyhole kidney kilt kindle kindness kingdom kinship kiosk
kipper kiss kitchen kite kitten kiwi knack knapsack knead kneel knight knit knitwear knuckle koala label labour lace
lacquer ladder ladle lady lagoon lamb laminate landing landmark language lantern large lark larva laser latitude
lattice laugh launch laundry laurel lavender lavish lawyer leaf leaflet league learn lease leather lecture leek
legal legend leisure lemon lemonade length lens lentil leopard lesson letter lettuce level liberty library licence
lichen lifeboat lifelong lifetime lift light likely lilac lily lime limit limpet linen linguist linnet lion lipstick
liquid literacy litre little liver lizard llama lobster local locket lodge lofty logbook logic lollipop long loop
lorry lotion lotus lounge lovely lucky luggage lumber lunar lupin lush lustre luxury lynx lyric macaroni macaw
machine mackerel magazine magic magnet magnify magpie mahogany maiden mail majesty mallard mallet mammal mammoth
manage mandarin mandolin mane mango manor mansion mantis mantle manual maple marathon marble margin marigold marina
market marmot marsh marvel mascot mason massive master material maths mattress maximum meadow measure meatball
mechanic medal medical medium meet melody melon memory mend mention merchant mercury merit mermaid mesh message
meteor meteorite method metre midday midnight mighty mileage milk miller million mimic mimosa mineral minibus
minimum minister minnow mint minute mirror mission mixture mobile mocha model modern modest module mohair moisture
mole molecule moment monarch monday mongoose monitor month monument moon moped morning mortar mosaic moss mother
motive motor motto mould mouse movie much muffin mulberry multiply mural muscle museum mushroom music muslin mussel
mutual myrtle myself mystery myth nacelle name napkin narrate nation native natural nature navigate navy necklace
nectar needle negotiate neighbour neon nephew nerve network neutral newborn newspaper newt nibble nickel niece
nineteen noble nobody nocturne noise nomad noodle north nosegay notable notch note notebook nothing notice notify
noun nourish novel november nozzle nuance nugget nursery nutmeg nylon oasis oatmeal oats obey object oboe observe
obtain obvious occasion occupy ocean octagon octave october octopus offer office often ointment olive omelette omit
once onion only opal opera opinion oppose optical option oracle orange orator orbit orchard orchestra orchid
ordinary organ orient origami origin oriole ornament osprey ostrich otter ought outdoor outfit outline outlook
output outside outward oven overcoat owner oxbow oxygen oyster pacific pack paddle padlock page pageant pagoda paint
palace palette palm pamphlet pancake panda panel panorama panther pantry papaya paper paprika papyrus parachute
parade paragraph parallel parasol parcel pardon parent parka parlour parsley parsnip partner party pass passage
passport pasta pastel pasture patchwork path patient patio pattern pause pavement pavilion peacock peak peanut pearl
pebble pecan peel pelican pencil pendant penguin penny pension people pepper perch perfect perform perfume perhaps
period permit person persuade petal petrol petunia pheasant phone photo phrase physics piano piccolo pickle picnic
picture pier pigeon pigment pilchard pillar pillow pilot pine pioneer pistachio piston pitcher pixel pizza plain
planet plank plaster plate platform platinum player plaza plea plenty plimsoll plough pluck plum plumage plural
plywood poem poetry polar polish polite polka pollen polo pond popcorn poppy popular porcelain porridge portable
portion portrait portray position positive possible post postcard potato pottery pouch poultry powder practice
prairie praise prawn precious precise predict prefer prelude premier prepare present press pretty pretzel primary
primrose prince printer prior prism private prize probable problem proceed process produce profile profit program
project prolong promise prompt proof propeller proper proud proverb provide province prudent prune publican publish
pudding pulley pullover pump pumpkin punch pupil puppet purple purpose purse puzzle pyjamas pyramid quadrant quaint
quality quantity quarry quarter quartz quaver queen query question quick quiet quill quince quirky quiz quota
quotient rabbit raccoon radar radiant radiator radio radish raffle rafter railway rainbow raisin rake rally rambler
random rapid raspberry rattan rattle raven ravine ravioli react reader ready realm recall receive recent recipe
recital reckon recommend record recover redwood reindeer relay relish reporter reptile reservoir resort reward
rhubarb rhyme ribbon rice ringlet ripple robin robot rooftop rooster rosebud rosemary rotunda rowan royal rubber
ruby rucksack rudder ruler runner runway rustic safari saffron sailor salad salmon salt sample sandal sandwich
sapphire sardine satchel satin saturday saucepan saucer sauna sausage savanna scaffold scallop scarf scenery scholar
school schooner science scissors scone scooter scout scroll sculptor seagull seal season seaweed second secret seed
senior sentence serenade sergeant servant sesame shallot shampoo shandy shark sheep shelf shepherd sherbet sheriff
shield shingle ship shirt shoe shortcut shoulder shovel shower shrimp shrub shuttle sideboard signpost silver sister
sketch skittle skylark sleeve sleigh slipper slope smile smoke snail snooker snorkel snow snowdrop soap soccer sofa
soldier sonata soprano sorbet sorrel south soybean spade spaniel spanner sparrow speaker spice spider spinach
spindle spiral spirit sponge spoon sport spotlight spring sprout spruce squash squirrel stable stadium stage stairs
stallion stamp starch starfish starling station statue steam steel steeple stencil steward stick stocking stool
stopper stork stove straw street stripe student studio sturgeon submarine suburb suede sugar suitcase sultana summer
summit sunday sundial sunflower sunrise supper surfer surname swallow swan sweater swift swimmer symbol symphony
syrup system tablet tadpole talcum talent tambour tandem tangent tankard tapestry tarragon tartan tavern teacake
teacher teapot teaspoon telegram tennis tent terrace textile texture theatre theory thicket thimble thistle thread
throne thrush thumb thunder thursday tide tiger timber tinsel toad toboggan tomato tonic topaz torch tortoise toucan
towel town tractor trade traffic trail tram trapeze traveller treacle treasure treetop trellis triangle tribe
tricycle trifle trinket trio tripod trolley trombone trophy trousers trout truffle trumpet trunk tuba tuesday tulip
turbine turkey turnip turret turtle tutor tuxedo tweed twig twilight twine typist tyre ukulele umbrella uncle
unicorn uniform universe upland uplift urchin usher utensil vacuum valley vanilla vapour varnish vault vegetable
vehicle velvet venture veranda verdict verse vessel vestry viaduct victory video viking villa vinegar vineyard
vintage violet violin visitor vitamin volcano volume voucher voyage vulture wagon waist waiter walker wallaby walnut
walrus waltz warbler wardrobe warehouse washer wedding wednesday weekend welcome wheat wheel whisker wicker widget
window winter wisdom wombat wonder woodland woollen workshop world wreath wren yard year yeast yellow yoghurt yolk
zebra zenith zinc zodiac zone zoology
"""
WORDS: tuple[str, ...] = tuple(_LIST.split())
