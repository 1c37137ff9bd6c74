"""The reviewed table: what safety depends on, and what each action needs and does.

It is judgement of the trade (common practice, no source), reviewed as a whole; nothing a
procedure says can take a need away. Spelling: `a=x/y` a is x or y; `unknown` may stand in every
variable and satisfies nothing. `gate` is the freshest gate: what it was for, until any action.
"""

from __future__ import annotations

VARIABLES = """
power         as-found off isolated restored
controls      other neutral lowest-speed
spindle       free held turning
seat          off on-nose caught locked
body          apart on-plate
bolts         none out caught snug tight
screws        none free touching nipped
carried       nothing plate body chuck
lifting-gear  rigged clear away
chuck-key     in out
screw-key     in out
spanner       in out
small-things  about cleared
jaws          loose on-bar on-work closed
indicator     off set
guard         open shut none
bystanders    near clear
dressed       other for-lifting for-turning
swing         checked not
reads         none fresh void
series        none open closed
result        none valid void
gate          none taking-up releasing power running
"""
"""Jaws grip in two ways. `on-bar`: held well enough to be read and turned by hand, nobody knows how
well. `on-work`: gripped to be worked on, pulled up evenly as the last thing done to the jaws. Only
the second may be under power; a test bar never is."""

FACTS = """
nose           long camlock bolted threaded
support-turns  yes no
guard-fitted   yes no
chuck-kind     adjustable independent
"""
"""Closed facts that the table itself looks at; every procedure that moves a chuck asks them.

`chuck-kind` is asked where work is centred: adjusting screws shift the body, or each jaw is moved
by itself. Where nobody asks it there is no centring of work, and no action of the jaws' own.
"""

POWER = """
seat=off/locked
seat=off or body=apart or bolts=tight/none
seat=off or body=apart or screws=nipped/none
jaws=closed/on-work or seat=off or body=apart
indicator=off
chuck-key=out
screw-key=out
spanner=out
lifting-gear=away
small-things=cleared
spindle=free
dressed=for-turning
bystanders=clear
guard=shut/none
carried=nothing
swing=checked
"""
"""What restoring power and running slow both need."""

TURNING_BY_HAND = " or ".join(
    (
        "carried=nothing and lifting-gear=clear/away and seat=off",
        "carried=nothing and lifting-gear=clear/away and seat=locked and body=apart",
        "carried=nothing and lifting-gear=clear/away and seat=locked and bolts=snug/tight/none",
        "carried=chuck/plate and seat=caught/locked and indicator=off and support-turns=yes",
        "carried=body and body=apart and seat=locked and indicator=off",
        "nose=threaded and seat=on-nose and carried=plate/chuck",
    )
)

FAST = (
    "body=on-plate and seat=locked and bolts=tight and screws=nipped and jaws=on-bar/on-work"
    " and series=open"
)
"""When a reading is true of an adjustable chuck as it works: nothing is left to be tightened."""

FAST_IN_JAWS = (
    "chuck-kind=independent and body=on-plate and seat=locked and bolts=tight/none"
    " and screws=none and jaws=on-work and series=open"
)
"""And of work in independent jaws: they are what shifts it, so they are pulled up before it."""

STILL_BENCH_OR_NOSE = "seat=locked and carried=nothing or seat=off and carried=nothing"

ACTIONS = f"""
set controls other
    needs     power=as-found/off/isolated
    then      controls=other
set controls neutral
    then      controls=neutral
set controls lowest-speed
    then      controls=lowest-speed
stop
    then      spindle=free if spindle=turning
isolate
    possible  power=restored/unknown/as-found
    then      power=off
try to start
    possible  power=off/isolated
    needs     carried=nothing
    needs     spindle=free
    needs     seat=off/locked
    needs     seat=off or body=apart or bolts=snug/tight/none
    needs     chuck-key=out
    needs     screw-key=out
    needs     spanner=out
    needs     indicator=off
    needs     jaws=loose/closed or seat=off or body=apart
    needs     bystanders=clear
    then      controls=other
    then      power=isolated
see isolated
    possible  power=off
    then      power=isolated
hold spindle
    possible  spindle=free
    then      spindle=held
free spindle
    possible  spindle=held
    then      spindle=free
rig lifting-gear
    then      lifting-gear=rigged
    then      small-things=about
take up plate
    possible  carried=nothing and body=apart
    needs     gate=taking-up
    needs     chuck-key=out
    needs     indicator=off
    needs     dressed=for-lifting
    needs     screw-key=out
    needs     spanner=out
    then      carried=plate
take up body
    possible  carried=nothing and body=apart or carried=nothing and bolts=out
    needs     gate=taking-up
    needs     chuck-key=out
    needs     indicator=off
    needs     dressed=for-lifting
    needs     screw-key=out
    needs     spanner=out
    needs     jaws=closed
    needs     lifting-gear=rigged
    needs     body=apart or seat=locked
    then      carried=body
take up chuck
    possible  carried=nothing and body=on-plate and bolts=caught/snug/tight/none
    needs     gate=taking-up
    needs     chuck-key=out
    needs     indicator=off
    needs     dressed=for-lifting
    needs     screw-key=out
    needs     spanner=out
    needs     jaws=closed/on-bar/on-work
    needs     lifting-gear=rigged
    needs     seat=locked/caught/on-nose or bolts=tight/none
    then      carried=chuck
set down
    possible  carried=plate/chuck and seat=off or carried=body and body=apart or carried=body and seat=off
    then      carried=nothing
release
    possible  carried=plate/body/chuck
    needs     gate=releasing
    needs     carried=plate and seat=caught/locked or carried=chuck and seat=locked and bolts=snug/tight/none
    then      carried=nothing
put on nose
    possible  seat=off
    needs     carried=plate or carried=chuck and bolts=tight/none
    needs     guard=open/none
    needs     spanner=out
    then      seat=on-nose
    then      small-things=about
    voids     result
catch
    possible  seat=on-nose
    needs     spindle=free or nose=long/camlock/bolted
    needs     carried=plate/chuck
    then      seat=caught
lock
    possible  seat=caught/locked
    needs     spanner=in or nose=threaded
    needs     spindle=held or nose=camlock/bolted/threaded
    needs     body=apart or carried=chuck or seat=locked
    then      seat=locked
    voids     result reads
unlock
    possible  seat=locked
    needs     spanner=in or nose=threaded
    needs     spindle=held or nose=camlock/bolted
    needs     carried=chuck or body=apart and carried=nothing/plate
    needs     indicator=off
    then      seat=caught
    voids     result series reads
take off nose
    possible  seat=on-nose/caught
    needs     carried=plate or carried=chuck and bolts=tight/none
    needs     guard=open/none
    needs     spanner=out
    needs     screw-key=out
    needs     chuck-key=out
    then      seat=off
    voids     result
join
    possible  body=apart
    needs     seat=locked and carried=body or seat=off and carried=nothing
    then      body=on-plate
    then      bolts=out
    then      screws=free
    voids     result
part
    possible  body=on-plate and bolts=out
    needs     seat=locked and carried=body or seat=off and carried=nothing
    then      body=apart
    then      bolts=out
    then      screws=free
    voids     result
bolts catch
    possible  body=on-plate and bolts=out
    then      bolts=caught
    then      carried=chuck if carried=body
    voids     result
bolts snug
    possible  body=on-plate and bolts=caught/snug
    needs     spanner=in
    needs     seat=locked/off
    then      bolts=snug
    voids     result reads
bolts tighten
    possible  body=on-plate and bolts=snug/tight
    needs     spanner=in
    needs     seat=locked/off
    then      bolts=tight
    voids     result reads
bolts ease
    possible  body=on-plate and bolts=tight
    needs     spanner=in
    needs     seat=locked and carried=nothing or seat=locked and carried=chuck or seat=off and carried=nothing
    then      bolts=snug
    voids     result reads
bolts slacken
    possible  body=on-plate and bolts=snug
    needs     spanner=in
    needs     seat=locked and carried=chuck or seat=off and carried=nothing
    then      bolts=caught
    voids     result reads
take bolts out
    possible  body=on-plate and bolts=caught
    needs     seat=locked and carried=chuck or seat=off and carried=nothing
    then      bolts=out
    then      carried=body if carried=chuck
    voids     result
screws touch
    possible  body=on-plate and screws=free
    needs     screw-key=in
    needs     {STILL_BENCH_OR_NOSE}
    needs     bolts=snug
    then      screws=touching
    voids     result reads
screws turn
    possible  body=on-plate and screws=touching/nipped
    needs     screw-key=in
    needs     {STILL_BENCH_OR_NOSE}
    needs     bolts=snug
    needs     reads=fresh
    then      screws=touching
    voids     result reads
screws nip
    possible  body=on-plate and screws=touching
    needs     screw-key=in
    needs     {STILL_BENCH_OR_NOSE}
    needs     bolts=tight
    then      screws=nipped
    voids     result reads
fit chuck-key
    possible  chuck-key=out
    needs     carried=nothing or seat=locked/caught
    then      chuck-key=in
remove chuck-key
    possible  chuck-key=in
    then      chuck-key=out
fit screw-key
    possible  screw-key=out
    needs     carried=nothing or seat=locked/caught
    then      screw-key=in
remove screw-key
    possible  screw-key=in
    then      screw-key=out
fit spanner
    possible  spanner=out
    needs     carried=nothing or seat=locked/caught
    then      spanner=in
remove spanner
    possible  spanner=in
    then      spanner=out
grip bar
    possible  jaws=loose/closed
    needs     chuck-key=in
    needs     carried=nothing
    then      jaws=on-bar
    voids     reads series
release bar
    possible  jaws=on-bar/on-work
    needs     chuck-key=in
    needs     carried=nothing
    needs     indicator=off
    then      jaws=loose
    then      result=void if chuck-kind=adjustable/independent and result=valid
    voids     reads series
jaws shift
    possible  chuck-kind=independent
    possible  jaws=on-bar/on-work
    needs     chuck-key=in
    needs     carried=nothing
    needs     seat=locked
    needs     body=on-plate
    needs     bolts=tight/none
    needs     reads=fresh
    then      jaws=on-bar
    voids     result reads
jaws tighten
    possible  chuck-kind=adjustable/independent
    possible  jaws=on-bar/on-work
    needs     chuck-key=in
    needs     carried=nothing
    needs     seat=locked
    needs     body=on-plate
    needs     bolts=tight/none
    then      jaws=on-work
    voids     result reads
close jaws
    possible  jaws=loose/closed
    needs     chuck-key=in
    then      jaws=closed
set indicator
    possible  indicator=off
    needs     carried=nothing
    then      indicator=set
    then      series=open
    then      small-things=about
remove indicator
    possible  indicator=set
    then      indicator=off
    voids     reads series
turn by hand
    needs     spindle=free
    needs     chuck-key=out
    needs     screw-key=out
    needs     spanner=out
    needs     dressed=for-turning
    needs     {TURNING_BY_HAND}
    then      swing=checked
read
    possible  indicator=set
    needs     series=open
    needs     seat=off or body=apart or jaws=on-bar/on-work
    needs     carried=nothing
    then      reads=fresh
    then      result=valid if {FAST} or {FAST_IN_JAWS}
clear away
    needs     carried=nothing
    then      small-things=cleared
    then      lifting-gear=away
shut guard
    possible  guard=open
    then      guard=shut
open guard
    possible  guard=shut
    then      guard=open
dress for lifting
    then      dressed=for-lifting
dress for turning
    then      dressed=for-turning
bystanders clear
    then      bystanders=clear
restore power
    possible  power=isolated
    needs     all of POWER
    needs     controls=neutral/lowest-speed
    needs     gate=power
    then      power=restored
run slow
    possible  spindle=free
    needs     all of POWER
    needs     power=restored
    needs     controls=lowest-speed
    needs     gate=running
    then      spindle=turning
"""
"""Unlike the first table: `try to start`, `restore power` and `run slow` say what they start
from; `voids` never makes a result, reading or series that was never there void.

`jaws shift` eases one independent jaw and drives the one across from it in: on a fresh reading, as
`screws turn` does, and never more than that pair, so that the other jaws hold the work all the
while (`jaws=on-bar`: it is held, and nobody knows how well). Seat and bolts are fast before, or the
jaws would shift the chuck and not the work. The series stays open: the next reading is of the same
grip. `jaws tighten` pulls up all of them evenly, or the scroll once more by its pinion; it moves the
work by what it will, so what was read before it is void. `release bar` ends what was centred."""

NOT_WORK = frozenset(
    {
        "set controls other",
        "set controls neutral",
        "set controls lowest-speed",
        "stop",
        "isolate",
        "try to start",
        "see isolated",
        "dress for lifting",
        "dress for turning",
        "bystanders clear",
        "shut guard",
        "turn by hand",
        "restore power",
        "run slow",
    }
)
"""Actions that leave the swing as checked and the bystanders as clear: nothing is brought near."""

DRESSING = frozenset({"dress for lifting", "dress for turning", "bystanders clear"})
"""What a gate's checks may set; it moves nothing on the lathe, so it is allowed at any time."""

CONTROLS = frozenset(
    {"set controls other", "set controls neutral", "set controls lowest-speed", "stop", "isolate"}
)

REMOVING = frozenset({"remove chuck-key", "remove screw-key", "remove spanner", "remove indicator"})

WHILE_AS_FOUND = CONTROLS | DRESSING
"""And, standing still, `REMOVING`."""

WHILE_OFF = (
    CONTROLS
    | DRESSING
    | REMOVING
    | {
        "try to start",
        "see isolated",
        "hold spindle",
        "free spindle",
        "fit spanner",
        "catch",
        "lock",
        "bolts catch",
        "bolts snug",
        "bolts tighten",
        "set down",
        "release",
        "shut guard",
    }
)
"""Only what brings a load to rest, until isolation is proven."""

WHILE_RESTORED = (CONTROLS - {"set controls other"}) | DRESSING | {"shut guard", "run slow"}

WHILE_TURNING = frozenset({"stop", "isolate"})

NEVER = """
seat=on-nose and carried=nothing/body
seat=caught and body=on-plate and carried=nothing/plate/body
seat=on-nose/caught/locked and body=on-plate and bolts=out/caught and carried=nothing/plate
seat=off and carried=chuck and bolts=out/caught/snug
seat=off and carried=body and body=on-plate
carried=body/chuck and lifting-gear=clear/away
power=restored and chuck-key=in
power=restored and screw-key=in
power=restored and spanner=in
power=restored and indicator=set
power=restored and seat=on-nose/caught
power=restored and seat=locked and body=on-plate and bolts=out/caught/snug
power=restored and carried=plate/body/chuck
power=restored and lifting-gear=rigged/clear
power=restored and guard=open
power=restored and jaws=loose/on-bar and seat=locked and body=on-plate
power=as-found/isolated and spindle=turning
"""
"""Dangers: an action may never lead into one (invariants over every reachable state)."""

AT_REST = """
spindle=free/held
carried=nothing
chuck-key=out
screw-key=out
spanner=out
seat=off or seat=locked and body=apart or seat=locked and bolts=snug/tight/none
"""

MADE_SAFE = (
    """
power=isolated
"""
    + AT_REST
)

FINISHED = (
    """
power=isolated or power=restored and jaws=on-work
"""
    + AT_REST
    + """
lifting-gear=away
small-things=cleared
indicator=off
guard=shut/none
controls=neutral
jaws=closed/on-work or seat=off or body=apart
"""
)
"""A chuck is handed over isolated, on nothing. Work that was centred is handed over gripped for
work, isolated or with the power that came back through its own gate: somebody starts on it now."""
