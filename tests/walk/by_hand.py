"""What may never be at a lathe, written by hand: not read from the table that is tested with it.

Each danger and each moment is a function whose parameters name the variables and facts that it
looks at (`_` stands for `-`). Judgement of the trade: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from inspect import signature

Told = Mapping[str, str]
"""Variables and facts by name."""
Claim = Callable[..., bool]

DANGERS: list[Claim] = []
"""True where somebody can be hurt by the lathe as it stands."""
MOMENTS: dict[str, list[Claim]] = {}
"""For an action, what has to be so at the moment it is done."""


def danger(claim: Claim) -> Claim:
    """Count a function among the dangers."""
    DANGERS.append(claim)
    return claim


def before(*actions: str) -> Callable[[Claim], Claim]:
    """Count a function among what has to be so before some actions."""

    def counted(claim: Claim) -> Claim:
        for action in actions:
            MOMENTS.setdefault(action, []).append(claim)
        return claim

    return counted


def names(claim: Claim) -> tuple[str, ...]:
    """The variables and facts that a claim looks at."""
    return tuple(name.replace("_", "-") for name in signature(claim).parameters)


def true(claim: Claim, told: Told) -> bool:
    """A claim asked of a world; what nobody told is unknown."""
    return claim(*(told.get(name, "unknown") for name in names(claim)))


def dangers(told: Told) -> set[str]:
    """The names of the dangers that there are."""
    return {claim.__name__ for claim in DANGERS if true(claim, told)}


@danger
def stands_on_the_nose_by_itself(seat: str, carried: str) -> bool:
    """Neither caught nor carried: it falls on the ways and the hands."""
    return seat == "on-nose" and carried in ("nothing", "body")


@danger
def hangs_by_what_only_catches(seat: str, body: str, carried: str) -> bool:
    """A chuck on two cams or a started thread, and nothing carries it."""
    return seat == "caught" and body == "on-plate" and carried != "chuck"


@danger
def body_hangs_on_started_bolts(seat: str, body: str, bolts: str, carried: str) -> bool:
    """The body leans on a plate on the nose, its bolts out or only started."""
    fast = bolts in ("snug", "tight", "none") or body != "on-plate"
    return seat in ("on-nose", "caught", "locked") and not fast and carried in ("nothing", "plate")


@danger
def parts_in_the_air(seat: str, carried: str, bolts: str) -> bool:
    """A chuck is carried free of the nose on bolts that are not tight."""
    return seat == "off" and carried == "chuck" and bolts not in ("tight", "none")


@danger
def body_carried_with_a_loose_plate(seat: str, carried: str, body: str) -> bool:
    """The body is carried and a plate that nothing holds sits on it."""
    return seat == "off" and carried == "body" and body == "on-plate"


@danger
def heavy_load_in_the_hands(carried: str, lifting_gear: str) -> bool:
    """Body or chuck carried by nothing that stays when both hands leave it."""
    return carried in ("body", "chuck") and lifting_gear != "rigged"


@danger
def hangs_free_with_a_key_in(carried: str, seat: str, chuck_key: str) -> bool:
    """A key in a chuck that is carried along the ways jams in the support and is thrown out."""
    return carried == "chuck" and seat == "off" and chuck_key == "in"


@danger
def powered_with_a_key_in(power: str, chuck_key: str, screw_key: str, spanner: str) -> bool:
    """What is left in is thrown when the spindle starts."""
    return power == "restored" and "in" in (chuck_key, screw_key, spanner)


@danger
def powered_with_an_indicator_set(power: str, indicator: str) -> bool:
    """The indicator is torn from its stand."""
    return power == "restored" and indicator == "set"


@danger
def powered_with_a_seat_not_locked(power: str, seat: str) -> bool:
    """What is not locked runs off the nose."""
    return power == "restored" and seat in ("on-nose", "caught")


@danger
def powered_with_bolts_not_tight(power: str, seat: str, body: str, bolts: str) -> bool:
    """The body shifts or comes off as it turns."""
    mounted = seat != "off" and body == "on-plate"
    return power == "restored" and mounted and bolts in ("out", "caught", "snug")


@danger
def powered_with_screws_not_nipped(power: str, seat: str, body: str, screws: str) -> bool:
    """A screw that nobody nipped works out as it turns."""
    mounted = seat != "off" and body == "on-plate"
    return power == "restored" and mounted and screws in ("free", "touching")


@danger
def powered_with_something_carried(power: str, carried: str) -> bool:
    """A start drags the load round."""
    return power == "restored" and carried in ("plate", "body", "chuck")


@danger
def powered_with_gear_about(power: str, lifting_gear: str) -> bool:
    """Sling or bar is caught and swung."""
    return power == "restored" and lifting_gear in ("rigged", "clear")


@danger
def powered_with_the_guard_open(power: str, guard: str) -> bool:
    """Nothing stands between what flies and a face."""
    return power == "restored" and guard == "open"


@danger
def powered_with_jaws_open(power: str, jaws: str, seat: str, body: str) -> bool:
    """Loose jaws and a bar that is not held for turning fly."""
    mounted = seat != "off" and body == "on-plate"
    return power == "restored" and mounted and jaws in ("loose", "on-bar")


@danger
def powered_with_work_nobody_pulled_up(
    power: str, jaws: str, seat: str, body: str, bolts: str
) -> bool:
    """Work in jaws that were moved since they were pulled up, or in a chuck that is not fast."""
    mounted = seat != "off" and body == "on-plate"
    held = jaws == "on-work" and seat == "locked" and bolts in ("tight", "none")
    return power == "restored" and mounted and jaws in ("on-bar", "on-work") and not held


@danger
def powered_with_things_in_the_swing(power: str, small_things: str) -> bool:
    """A stop or a rag that lies in the swing is thrown."""
    return power == "restored" and small_things == "about"


@danger
def powered_with_the_spindle_held(power: str, spindle: str) -> bool:
    """A strap or a bar that holds the spindle flies as it starts."""
    return power == "restored" and spindle == "held"


@danger
def turns_while_it_is_worked_on(power: str, spindle: str) -> bool:
    """Isolation means that nothing turns."""
    return power == "isolated" and spindle == "turning"


@before("restore power", "run slow")
def everything_out_and_away(
    chuck_key: str, screw_key: str, spanner: str, indicator: str, lifting_gear: str, carried: str
) -> bool:
    """Keys, spanner, indicator, gear and load are away from the spindle."""
    out = {chuck_key, screw_key, spanner} == {"out"}
    return out and indicator == "off" and lifting_gear == "away" and carried == "nothing"


@before("restore power", "run slow")
def everything_fast(seat: str, body: str, bolts: str, screws: str, jaws: str) -> bool:
    """What is on the nose is locked, tight, nipped, and its jaws are closed."""
    if seat == "off":
        return True
    gripped = jaws in ("closed", "on-work")
    chuck = bolts in ("tight", "none") and screws in ("nipped", "none") and gripped
    return seat == "locked" and (body == "apart" or chuck)


@before("restore power", "run slow")
def people_and_swing_ready(
    dressed: str, bystanders: str, small_things: str, guard: str, swing: str, spindle: str
) -> bool:
    """Dressed for turning, people clear, swing empty and turned once by hand, guard shut."""
    people = dressed == "for-turning" and bystanders == "clear"
    room = small_things == "cleared" and guard in ("shut", "none") and swing == "checked"
    return people and room and spindle == "free"


@before("restore power")
def restored_from_isolation(power: str, controls: str, gate: str) -> bool:
    """Power comes back only to a proven isolation, levers set, through its own fresh gate."""
    return power == "isolated" and controls in ("neutral", "lowest-speed") and gate == "power"


@before("run slow")
def run_at_the_lowest_speed(power: str, controls: str, gate: str) -> bool:
    """A run is at the lowest speed and through its own fresh gate."""
    return power == "restored" and controls == "lowest-speed" and gate == "running"


@before("release")
def let_go_of_what_holds_itself(seat: str, carried: str, bolts: str, gate: str) -> bool:
    """A chuck is released only locked and bolted, a plate at least caught."""
    chuck = carried == "chuck" and seat == "locked" and bolts in ("snug", "tight", "none")
    plate = carried == "plate" and seat in ("caught", "locked")
    return (chuck or plate) and gate == "releasing"


@before("take up plate", "take up body", "take up chuck")
def taken_up_with_empty_sockets(
    chuck_key: str, screw_key: str, spanner: str, indicator: str, dressed: str, gate: str
) -> bool:
    """Nothing sticks out of a load that is taken up, and who lifts is dressed and has read on."""
    out = {chuck_key, screw_key, spanner} == {"out"} and indicator == "off"
    return out and dressed == "for-lifting" and gate == "taking-up"


@before("take up body", "take up chuck")
def heavy_load_only_in_gear(lifting_gear: str, jaws: str) -> bool:
    """Body and chuck are taken up only in a support, with jaws that cannot drop out."""
    return lifting_gear == "rigged" and jaws in ("closed", "on-bar", "on-work")


@before("try to start")
def tried_as_if_it_might_start(
    carried: str,
    seat: str,
    chuck_key: str,
    screw_key: str,
    spanner: str,
    indicator: str,
    bystanders: str,
) -> bool:
    """A start that works after all hurts nobody."""
    out = {chuck_key, screw_key, spanner} == {"out"} and indicator == "off"
    return carried == "nothing" and seat in ("off", "locked") and out and bystanders == "clear"


@before("try to start")
def nothing_loose_to_be_thrown(seat: str, body: str, bolts: str, jaws: str) -> bool:
    """A mounted chuck that might start is bolted and holds no bar."""
    mounted = seat != "off" and body == "on-plate"
    return not mounted or (bolts in ("snug", "tight", "none") and jaws in ("loose", "closed"))


@before("turn by hand")
def turned_with_empty_sockets(
    chuck_key: str, screw_key: str, spanner: str, spindle: str, dressed: str, power: str
) -> bool:
    """Turning by hand is with every key out, the spindle free and no glove or cuff to catch."""
    out = {chuck_key, screw_key, spanner} == {"out"}
    return out and spindle == "free" and dressed == "for-turning" and power == "isolated"


@before("turn by hand")
def turned_under_its_support(
    carried: str, seat: str, support_turns: str, body: str, nose: str, lifting_gear: str
) -> bool:
    """A carried chuck is turned only in a support that lets it turn, or onto its thread."""
    if carried == "nothing":
        return lifting_gear in ("clear", "away") and seat in ("off", "locked")
    if carried == "body":
        return body == "apart" and seat == "locked"
    threading = nose == "threaded" and seat == "on-nose"
    return threading or (support_turns == "yes" and seat in ("caught", "locked"))


@before("put on nose", "take off nose")
def moved_along_the_ways(carried: str, bolts: str, guard: str, spanner: str) -> bool:
    """On and off the nose only what is carried whole, the guard out of its way."""
    whole = carried == "plate" or (carried == "chuck" and bolts in ("tight", "none"))
    return whole and guard in ("open", "none") and spanner == "out"


@before("unlock")
def let_go_by_the_nose(carried: str, body: str, indicator: str) -> bool:
    """The nose lets go of a chuck only when something carries it."""
    carried_by_something = carried == "chuck" or (body == "apart" and carried != "body")
    return carried_by_something and indicator == "off"


@before("take bolts out", "bolts slacken")
def let_go_by_the_bolts(seat: str, carried: str) -> bool:
    """Bolts let go of a body on the nose only when something carries it, else on the bench."""
    return (seat == "locked" and carried == "chuck") or (seat == "off" and carried == "nothing")


@before("part")
def parted_in_a_support(seat: str, carried: str, bolts: str) -> bool:
    """The body comes off its plate carried, or on the bench, with every bolt out."""
    held = (seat == "locked" and carried == "body") or (seat == "off" and carried == "nothing")
    return held and bolts == "out"


@before("screws turn")
def shifted_on_a_reading(bolts: str, reads: str, carried: str, screw_key: str) -> bool:
    """A screw shifts a body that is snug, on a fresh reading, with nothing carried."""
    return bolts == "snug" and reads == "fresh" and carried == "nothing" and screw_key == "in"


@before("jaws shift")
def one_pair_of_jaws_moved_while_the_others_hold(
    chuck_kind: str, jaws: str, reads: str, chuck_key: str, power: str, spindle: str
) -> bool:
    """Only independent jaws, with work in them, on a fresh reading, isolated and standing."""
    still = power == "isolated" and spindle in ("unknown", "free", "held")
    gripping = jaws in ("on-bar", "on-work") and chuck_key == "in"
    return chuck_kind == "independent" and gripping and reads == "fresh" and still


@before("jaws shift", "jaws tighten")
def pulled_up_in_a_chuck_that_is_fast(seat: str, body: str, bolts: str, carried: str) -> bool:
    """Jaws pull on work in a chuck that is locked and bolted and hangs in nothing."""
    fast = seat == "locked" and body == "on-plate" and bolts in ("tight", "none")
    return fast and carried == "nothing"


@before("jaws tighten")
def pulled_up_where_work_is_centred(chuck_kind: str, jaws: str, chuck_key: str) -> bool:
    """Only where work is centred is a grip ever made for cutting; a test bar never is."""
    gripping = jaws in ("on-bar", "on-work") and chuck_key == "in"
    return chuck_kind in ("adjustable", "independent") and gripping


@before("fit chuck-key", "fit screw-key", "fit spanner")
def no_key_into_what_hangs_free(carried: str, seat: str) -> bool:
    """No key goes into a load that hangs clear of the nose or stands on it uncaught."""
    return carried == "nothing" or seat in ("locked", "caught")


@before("grip bar", "release bar", "set indicator")
def nothing_carried_beside_it(carried: str, power: str) -> bool:
    """Bar and indicator are handled with nothing carried and the power isolated."""
    return carried == "nothing" and power == "isolated"


@before("catch")
def threaded_on_by_turning(nose: str, spindle: str, carried: str) -> bool:
    """Only what is carried is caught; a thread is started by turning the spindle."""
    return carried in ("plate", "chuck") and (nose != "threaded" or spindle == "free")


@before("lock", "unlock")
def locked_with_its_own_tool(nose: str, spanner: str) -> bool:
    """Nut, cams and bolts turn by their spanner; a thread has none."""
    return nose == "threaded" or spanner == "in"


@before("lock")
def drawn_home_against_a_held_spindle(nose: str, spindle: str) -> bool:
    """A draw nut is drawn home with the spindle held."""
    return nose != "long" or spindle == "held"


@before("unlock")
def let_go_against_a_held_spindle(nose: str, spindle: str) -> bool:
    """A draw nut and a thread are broken loose with the spindle held."""
    return nose in ("camlock", "bolted") or spindle == "held"


@before("lock")
def locked_under_its_support(seat: str, body: str, carried: str) -> bool:
    """A chuck that is only caught is carried until it is locked."""
    return seat == "locked" or body == "apart" or carried == "chuck"


@before("screws touch", "screws turn", "screws nip")
def set_where_it_lies_still(seat: str, carried: str) -> bool:
    """Screws are set on a locked nose or on the bench, with nothing hanging."""
    return seat in ("locked", "off") and carried == "nothing"


@before("read")
def read_on_what_was_meant(seat: str, body: str, jaws: str) -> bool:
    """Bare nose and plate are read themselves, a mounted chuck on the bar or work in its jaws."""
    return seat == "off" or body == "apart" or jaws in ("on-bar", "on-work")


SPANNER, CHUCK_KEY, SCREW_KEY = ({each: ("in",)} for each in ("spanner", "chuck-key", "screw-key"))
FROM: dict[str, dict[str, tuple[str, ...]]] = {
    "hold spindle": {"spindle": ("free",)},
    "free spindle": {"spindle": ("held",)},
    "put on nose": {"seat": ("off",)},
    "catch": {"seat": ("on-nose",)},
    "lock": {"seat": ("caught", "locked")},
    "unlock": {"seat": ("locked",)},
    "take off nose": {"seat": ("on-nose", "caught"), "screw-key": ("out",), "chuck-key": ("out",)},
    "join": {"body": ("apart",)},
    "part": {"body": ("on-plate",), "bolts": ("out",)},
    "bolts catch": {"body": ("on-plate",), "bolts": ("out",)},
    "bolts snug": {**SPANNER, "bolts": ("caught", "snug"), "seat": ("locked", "off")},
    "bolts tighten": {**SPANNER, "bolts": ("snug", "tight"), "seat": ("locked", "off")},
    "bolts ease": {**SPANNER, "bolts": ("tight",)},
    "bolts slacken": {**SPANNER, "bolts": ("snug",)},
    "take bolts out": {"body": ("on-plate",), "bolts": ("caught",)},
    "screws touch": {**SCREW_KEY, "screws": ("free",), "bolts": ("snug",)},
    "screws turn": {**SCREW_KEY, "screws": ("touching", "nipped"), "bolts": ("snug",)},
    "screws nip": {**SCREW_KEY, "screws": ("touching",), "bolts": ("tight",)},
    "fit chuck-key": {"chuck-key": ("out",)},
    "remove chuck-key": {"chuck-key": ("in",)},
    "fit screw-key": {"screw-key": ("out",)},
    "remove screw-key": {"screw-key": ("in",)},
    "fit spanner": {"spanner": ("out",)},
    "remove spanner": {"spanner": ("in",)},
    "grip bar": {**CHUCK_KEY, "jaws": ("loose", "closed")},
    "release bar": {**CHUCK_KEY, "jaws": ("on-bar", "on-work"), "indicator": ("off",)},
    "jaws shift": {**CHUCK_KEY, "jaws": ("on-bar", "on-work"), "bolts": ("tight", "none")},
    "jaws tighten": {**CHUCK_KEY, "jaws": ("on-bar", "on-work"), "bolts": ("tight", "none")},
    "close jaws": {**CHUCK_KEY, "jaws": ("loose", "closed")},
    "set indicator": {"indicator": ("off",)},
    "remove indicator": {"indicator": ("set",)},
    "read": {"indicator": ("set",), "series": ("open",), "carried": ("nothing",)},
    "shut guard": {"guard": ("open",)},
    "open guard": {"guard": ("shut",)},
}
"""What an action starts from, and the tool that is in; from nothing else can it be done."""
