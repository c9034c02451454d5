"""The words of the bench by which an instruction is known: closed lists, and no model of the language."""

from __future__ import annotations


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


# Of these, each is as often the name of a thing, or says what a thing is like: behind an `and` it is an act where an
# object follows (`and seal the groove`), and one of a list where none does (`the groove and seal`).
_DOUBTFUL_ACTS = _words("""
    adjust back bag bake bend bin blot blow bolt bond boot bore break bridge brush buff cap centre chamfer change
    charge chip clamp clasp clean clear click clip close coat coil collar compress cool copy couple cover crack
    crimp crop cure curl cut damp dent dial dip discharge dock download drain draw dress drill drive drop dry dust
    earth ease edge empty exchange fan feed file fill fit fix flash flick flip flood flush fold form format free
    glue grasp grease grind grip ground guide hammer hang heat hinge hook insert insulate jack jam join key knock
    knot label lap latch launch lay level lever lift link load lock log loop lower mark mask match mate melt mix mop
    mount move nest nick nudge open pack pad paint pair park part paste patch peel pick place plug polish pop
    position pour power press prime program prop pull pump punch purge push raise reach reboot reflow release repair
    reset restart return reverse rinse rip rivet rock roll round route rub run sand saw scoop scrape scratch screw
    scrub seal seat secure separate set shake shield shift shim short shrink shut sink sleeve slide slip slit smear
    smooth snap snip soak solder sort space spin splice split spray spread square stack stamp stand staple stick
    stitch store strap stretch string strip swab swap sweep swing swipe switch tack tap tape taper tear tension thin
    thread tie tilt tin tip top torque touch trace transfer trap trim tuck tug tune turn twist type update upload
    vacuum vent wake warm wash wedge weld wet wick widen wiggle wind wipe wrap wrench zero zip
""")
_SURE_ACTS = _words("""
    abrade activate add affix align anchor apply arrange assemble attach bleed bring calibrate carry collect conceal
    connect dab deactivate deburr decouple deflate degrease deliver desolder detach dilute disable disassemble
    discard disconnect disengage dismantle dismount dispense dispose eject enable energise energize engage enlarge
    enter erase etch expose extend extract fasten fetch flatten gather glue grab immerse inflate inject install
    interlock invert isolate jiggle knead loosen lubricate manoeuvre moisten orient poke preheat prise prize prod
    pry put re-tin realign ream rearrange reassemble reattach rebuild recharge reconnect reduce refill refit reform
    reglue reinforce reinsert reinstall relocate remount remove renew reopen replace replug reposition reroute
    reseal reseat resolder restore retighten retin retrieve rewire rotate roughen send shave shove slacken squash
    squirt stir stow straighten stretch suck swill swivel take tamp tease throw thrust tidy tighten unbend unblock
    unbolt unclamp unclip uncoil uncouple uncover undo unfold unglue unhook uninstall unlatch unload unlock unmount
    unpack unpick unplug unroll unscrew unseal unseat unsolder unstick untie unwind unwrap upend withdraw wriggle
    write
""")
ACTS = _DOUBTFUL_ACTS | _SURE_ACTS
"""What changes something: two of these in one step are two steps."""

LOOKS = _words("""
    check compare confirm count examine feel find inspect listen look measure note observe photograph read record
    scan see smell test verify view watch weigh
""")
"""What only takes notice."""

# `squeeze the latches and pull the plug`: one hand holds what the other works on.
WAITS = _words("allow hold keep leave let pause pinch rest squeeze steady support wait")
"""What lets time pass, or keeps something as it is while another thing is done."""

MANNERS = _words("""
    ask avoid be begin bear beware choose continue do don't end ensure finish follow give go handle have help ignore
    make mind never pay proceed remember repeat select show start stop treat try use work
""")
"""What says how, where to begin, or what not to do: no act of its own."""

VERBS = ACTS | LOOKS | WAITS | MANNERS
DOUBTFUL = _DOUBTFUL_ACTS | _words("""
    check count feel find look measure note pause read record rest scan smell start steady stop support test use
    view wait watch
""")

# One hand does both at once: `push down and turn` is one movement.
MOVEMENTS = _words("""
    ease lift press pull push rock roll rotate slide tilt tug turn twist wiggle
""")
TAKES = _words("""
    draw lift peel pick prise pry pull remove slide slip take unclip unscrew withdraw
""")
PUTS = _words("lay place put set stand store stow")

OBJECTS = _words("""
    a all an another any both each either every everything half it its one that the their them these this those what
    your two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen
    eighteen nineteen twenty
""")
"""Words that begin what is acted on."""
SOUGHT = _words("at for from in into on out over round through to under whether")
"""What follows a look that has no object: `look at`, `listen for`."""

# What an instruction cannot begin with.
DETERMINERS = _words("""
    a all an another any both each either every everything half he her his how i it its many most much my neither no
    nobody none not nothing one our several she some somebody someone something such that the their them there these
    they this those two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen
    seventeen eighteen nineteen twenty we what which who whoever whose why you your
""")
AUXILIARIES = _words("""
    am are aren't can cannot can't could did does doesn't had has is isn't may might must mustn't shall should
    shouldn't was were will won't would
""")
QUALITIES = _words("""
    broken careful dead done faulty given good held hot important kept loose necessary new old optional possible
    ready required small taken used wrong
""")
THINGS = _words("""
    adapter adhesive antenna barometer battery bead bench bezel board bracket button buzzer cable camera case
    caution chassis collar component connector cradle danger device display end fastener flex flux foil frame fuse
    gasket gauge gloves groove holder housing inductor iron isopropanol joint keypad lamp lead lens lid logger
    magnet memory microphone microscope motherboard multimeter ohmmeter operator oven oxide panel pin port radio
    resistor ribbon ring rubber screen sensor shell sim socket software speaker spring stud tablet technician
    terminal thermocouple tool tray tweezers unit user voltage voltmeter washer window wire worker
""")
"""Things of the bench whose name is no instruction."""

# They stand before an instruction and change nothing of it.
BEFORE = _words("""
    again also always and but either finally first firstly immediately last lastly meanwhile next now once only
    please second secondly soon then third thirdly
""")
# What they begin ends at a comma, and the instruction follows.
OPENERS = _words("""
    above across after along around as at because before behind below beneath beside between beyond by depending
    during for from given if in inside instead into near of on once onto opposite out outside over provided round
    since so through till to toward towards under unless until up upon using wearing when whenever where wherever
    while with within without
""")
# What follows them says when or which: an `and` behind them may go on saying it.
SUBORDINATES = _words("""
    although as because before after if once since so than that though till unless until when whenever where
    wherever whether which while who whose
""")
ENDS_IN_ING = _words("""
    bring cling fling king ping ring sing sling spring sting string swing wring
""")
ENDS_IN_ED = _words(
    "bed bleed breed embed exceed feed heed need proceed reed seed shed shred sled speed succeed wed weed"
)
ENDS_IN_LY = _words("apply assembly comply fly multiply ply reply rely sly supply")
ENDS_IN_S = _words("""
    access address always bias bypass compress cross discuss dress focus glass guess less miss pass press process
    thus toss truss unless us
""")
