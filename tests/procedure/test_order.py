"""Steps that the speaker says belonged earlier."""

import pytest
from narration import procedure_of

DONE_LATE = [
    (
        "undo the two clips | i messed up here i already took the guard off before i broke that pulley nut loose",
        "pulley nut loose",
    ),
    ("unplug the two leads | i already | pulled both leads before i took the picture", "Take a picture"),
    (
        "press the seal in | i pressed the second bearing in and the spacer was still sitting on the bench so out it comes",
        "Fit the spacer",
    ),
    (
        "jack up the car | remove the wheel | i should have cracked the lug nuts loose before i jacked up the car",
        "lug nuts",
    ),
    ("remove the oil filter | i should have drained the oil first before i took the filter off", "oil"),
    (
        "slide the deck out | now i did that wrong | so do it the right way round and pull the spark plug lead first",
        "spark plug lead",
    ),
    ("undo the four nuts | well i took those nuts off with the fuel bowl still full", "Drain the fuel bowl"),
    ("remove the chain cover | i've just pulled the cover off with no rag in there", "rag in place"),
    (
        "undo the clip | i had the hose half off before i'd shut the tank valve and i got a sleeve full",
        "Shut the tank valve",
    ),
    ("lift off the rubber boot | i lifted the boot before i had tagged the breaker", "Tag the breaker"),
    (
        "slacken the tensioner | i had the tensioner slack before the locking pin was in on my first try",
        "Fit the locking pin",
    ),
    ("remove the oil filter | i should've had the oil drained out before this", "Drain the oil"),
    ("jack up the van | what i should have done is cracked the wheel nuts", "wheel nuts"),
    ("remove the two bolts | i oughta broke that fuel line loose while it was still bolted down", "fuel line"),
    (
        "fit the oil seal | i just did something dumb i drove the seal in so now the bearing first then the seal",
        "Fit the bearing",
    ),
    (
        "undo the two caliper bolts | do you know what i'm after doing i'm after taking the caliper off and the pins are still tight",
        "pins",
    ),
    (
        "remove the drive belt | here's the bit i made a mess of i should've marked the belt before i pulled it off",
        "belt",
    ),
    ("remove the rear wheel | if i had my time again i'd loosen the axle nut before i put it on the stand", "axle nut"),
    ("remove the crank arm | that ought to have come off before the crank that chain guard", "chain guard"),
    ("fit the rear cover | i've gone and put the cover on and the gasket's still on the bench", "gasket"),
    ("remove the fan housing | i've the housing off and i never took a picture of the wires", "picture"),
    ("slide the machine out | now i'd have been better off draining the hose first", "hose"),
    (
        "undo the flange bolts | it would've been a lot easier to slacken the pinch bolt before taking the flange bolts out",
        "pinch bolt",
    ),
    ("remove the gearbox cover | what i ought to have done first is drain the oil", "oil"),
    ("remove the fork legs | ideally you'd crack the top caps while the legs are still in the clamps", "top caps"),
    (
        "fit the circlip | and of course i've put the circlip on before the washer so the washer has to go on first",
        "washer",
    ),
    ("remove the air box | i wish i'd unplugged the sensor before i lifted the air box", "sensor"),
    ("remove the pump | don't do what i did i pulled the pump with the water still on", "water"),
    ("tighten the side panels | oh no i've tightened the panels and the earth wire is still off", "earth wire"),
    ("jack up the trailer | the wheel nuts should have been cracked before it went up", "wheel nuts"),
    ("fit the tire | you're supposed to put the rim tape on before the tire and i forgot", "rim tape"),
    ("remove the front panel | see i've done it arseways the power should be off before the panel comes off", "power"),
    ("remove the starter | in hindsight i'd disconnect the battery before taking the starter off", "battery"),
    ("fit the flywheel | i've put the flywheel on and left the key in the drawer", "key"),
    ("remove the handlebar | next time i'd undo the brake cable before the handlebar comes off", "brake cable"),
    ("pull the axle out | that was a mistake i should have had a tray under it before i pulled the axle", "tray"),
    ("remove the carburetor | too late now but the fuel tap should have been closed first", "fuel tap"),
    ("remove the motor | i got carried away there and pulled the motor without marking the wires first", "wires"),
    ("remove the spring | me being me i took the spring out before measuring it", "spring"),
    (
        "fit the seal | i should have put the seal driver in the freezer no i mean i should've greased the seal before i pressed it in",
        "seal",
    ),
    ("remove the left wheel | ah for god's sake i've the wheel off and the hub nut's still tight", "hub nut"),
    ("fit the dust boot | and now i see the clip lying on the bench that should have gone on before the boot", "clip"),
    ("remove the back panel | i pulled the panel with the water still connected", "water"),
    ("remove the front forks | looking back i'd slacken the stem bolt before the forks come out", "stem bolt"),
    ("fit the manifold | i've bolted the manifold on and the gasket is sitting here looking at me", "gasket"),
    ("lift out the drum | i really ought to have taken the belt off before i lifted the drum", "belt"),
    ("remove the exhaust | it would have been smarter to soak the studs before i took the exhaust off", "studs"),
    ("remove the pulley | i jumped ahead there the bolt should be loose before the belt comes off", "bolt"),
    ("remove the top cover | i forgot to unplug the machine before i took the cover off", "machine"),
    ("undo the union | we should have closed the valve before we undid the union", "valve"),
]
FOUND_WITHOUT_A_STEP = [
    "remove the alternator | you'd want to have the battery disconnected before you do this and i haven't",
    "remove the blade | i'm after pulling the blade off and i never marked which side faces down",
]
SAID_IN_PASSING = [
    "he should have bought a new one before it broke",
    "i should have worn gloves",
    "check the belt before you start the engine",
    "i forgot my coffee",
    "you should have two of these",
    "tighten the first bolt before the second",
    "we did the other side with the engine still on the stand",
    "i drained the oil with the engine still warm",
    "i took it off with no trouble at all",
    "i ought to look at the belt before the winter",
    "i checked the oil before i had the coffee",
    "here's the bit i like best",
    "if i had my time again i'd buy the red one",
    "i've gone and put the kettle on",
    "do you know what i'm after finding a twelve mil socket",
    "that ought to have come with a new washer",
    "i never took a penny for this",
    "i'd have been better off at the beach",
    "next time i'd use a longer bar",
    "in hindsight the cheap one was grand",
    "the bolts should have been longer",
    "you should put the cover on before it rains",
    "ideally you'd have two people",
    "my wife forgot to put the bins out before she left",
    "we left the door open and the cat's still out",
    "i never saw one this clean before",
    "i made a mess of the floor",
    "i've the door off and the seal is still good",
    "i've put the cover on and the screws are in the tray",
    "now i've fitted the pump and the hose is still tight",
    "you should have the wheel off before you start",
    "the bolts need to be clean before they go in",
    "i took the cover off and i never found a crack",
    "next time we'll do the other side first",
    "the nuts should be tight before you drive it",
    "the belt comes off before the pulley",
    "take the wheel off before the caliper",
    "the gasket goes on first",
    "i forgot to say the bolts are left hand thread",
    "i've taken the pump out and i haven't decided whether to fit a new one",
    "it was meant to be sunny today",
    "i never use an impact on these before they're warm",
    "ideally you'd warm the oil first",
    "be careful not to pull it without a puller",
]


@pytest.mark.parametrize(("said", "about"), DONE_LATE)
def test_the_remark_is_found_and_the_step_moves(said: str, about: str) -> None:
    procedure = procedure_of(said)
    assert len(procedure.order_remarks) == 1
    moved = [step for step in procedure.steps if step.shown_later is not None]
    assert len(moved) == 1
    assert about in moved[0].text
    assert procedure.steps.index(moved[0]) < len(procedure.steps) - 1


@pytest.mark.parametrize("said", FOUND_WITHOUT_A_STEP)
def test_a_remark_whose_step_cannot_be_named_is_still_found(said: str) -> None:
    procedure = procedure_of(said)
    assert len(procedure.order_remarks) == 1
    assert all(step.shown_later is None for step in procedure.steps)


@pytest.mark.parametrize("said", SAID_IN_PASSING)
def test_no_remark_where_nothing_belonged_earlier(said: str) -> None:
    procedure = procedure_of(f"remove the belt cover | {said} | fit the belt cover")
    assert procedure.order_remarks == ()
    assert all(step.shown_later is None for step in procedure.steps)
