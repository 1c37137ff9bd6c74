"""A procedure to begin from: it passes `check` as it stands and says in comments what to add.

The steps around the work are those of every job at a lathe: say which one it is, isolate it, prove
it, and hand it over. What it asks to be filled in is the work between them.
"""

from __future__ import annotations

import json
import re

from guide.plain import N_, BadInput

NAME = re.compile(r"(?=.{1,60}\Z)[a-z][a-z0-9]*(?:-[a-z0-9]+)*")
MARK = re.compile(r"<<([a-z]+)( as it is)?>>")

TEXT = """\
# <<title as it is>>
#
# Written by <<author as it is>>.
#
# It passes `spindleside check` as it stands. Put your own words and steps where a comment says so,
# and check it again after every change: each finding stands behind its line, with the shortest way
# to it. The words that it may be written in, with what each action needs, are listed by
# `spindleside procedures words`; keys and shapes, for an editor, by `procedures schema`.
# Shipped ones to look at: `spindleside procedures show quick-centring` has readings, verdicts and
# ways back, `backplate-fitting` has work under power.
procedure: <<name as it is>>
# A new revision for every change that somebody might have to know of.
revision: "1"
author: <<author>>
# Who let it be used, and on which day; blank until somebody did.
approved-by: ""
approved-on: ""
title: <<title>>
purpose: >-
  <<purpose as it is>>
# What it rests on: a source that you opened, a limit the user is asked for, or common practice.
rests-on:
  - >-
    The maker's manual of this lathe, local rules, and a competent person where one is required:
    they come before everything written here.
  - >-
    The order of work: common practice, no source.
# What is asked and recorded: text, choice, yes-no, length, mass, number, speed, torque, date.
# Some are taken by their name (see `procedures words`): `nose` and `on-nose` say what the first
# look is expected to find, and so what is checked; `unit` has to be asked where a dial is read.
facts:
  lathe:
    ask: Which lathe is this?
    kind: text
    help: As this setup was opened. One lathe has at most one open setup.
  nose:
    ask: How does a chuck fasten to this spindle?
    kind: choice
    of:
      long: long taper with a key and a draw nut
      camlock: short taper with pins and cams
      bolted: short taper with studs or bolts
      threaded: a plain thread
    help: Look from the front and from behind, and in the lathe's manual.
  on-nose:
    ask: What is on the nose now?
    kind: choice
    # Not for this job? At the step: `go: [{if: on-nose=nothing, to: abandoned}]`
    of:
      nothing: nothing, the nose is bare
      this-plate: a plate alone
      this-chuck: a chuck that is bolted to a separate plate
      one-piece: a chuck without a separate plate
    help: Look from the front and from behind for a joint and for bolt heads; touch nothing.
  notes:
    ask: What should the next one know?
    kind: text
    # Stands there to be confirmed, so that nobody has to type.
    usual: nothing besides what is recorded
    help: What was found and done, in a few words.
stages:
  - stage: before
    title: Before you start
    steps:
      - step: lathe-facts
        kind: facts
        title: Say which lathe this is
        # full is for an apprentice, brief for an experienced hand; brief is never the weaker one.
        full: >-
          Stand at the headstock and look; touch nothing yet. Have the lathe's manual within reach:
          where it says otherwise than this page, it is right.
        brief: Which lathe, which nose, what is on it. The maker's manual comes first.
        why: What is true of one lathe is wrong on another.
        good: You can name the lathe without guessing.
        wrong: You are not sure. Stop and ask someone who knows this lathe.
        ask: [lathe, nose, on-nose]
  - stage: isolating
    title: Isolating
    steps:
      # Shared parts, written once: looking the lathe over, cutting it off, proving that it is off.
      - include: isolating
      - include: bolts-fast
      - include: proving-isolated
  - stage: work
    title: The work
    steps:
      # Yours begins here. A task is done, a gate is confirmed check by check, facts are answered,
      # readings are taken. Every step that is not a gate names what it does to the machine under
      # `does:`; leave it away only where nothing moves. What may be so already is written
      # `release bar if jaws=on-bar/on-work`; a step that is not always due has a `when:`.
      # Whoever comes back after a break is asked again what is so, and goes on at the nearest step
      # before that fits: `check` tries every such change, and each has to lead somewhere.
      - step: the-work
        kind: task
        title: Do the work
        full: >-
          Say here what is done, in the order in which hands do it, and what to look at before and
          after. Everything is done with the lathe isolated and its lock on.
        brief: The work, with the lock on.
        why: Say why it matters.
        good: Say what good looks like.
        wrong: Say what wrong looks like, and what then.
        cautions:
          # A caution names what can hurt and what to do about it.
          - hazard: The lathe starts with a hand in it.
            action: Your own lock stays on, and its key in your pocket, until the work is over.
  - stage: handing-over
    title: Handing over
    steps:
      # A chuck is not handed over with loose jaws, nor with a bar in them that nobody pulled up.
      - step: close-jaws
        kind: task
        title: Close the jaws on nothing
        full: >-
          Lay a board across the ways under the jaws. Fit the chuck key, hold what is gripped with
          the other hand and take it out, and close the jaws until they lie inside the body. Take
          the key out and lay it on the bench before you do anything else.
        brief: Board under, what is gripped out by hand, jaws within the rim; the key out at once.
        why: A jaw that sticks out strikes, and one that is loose falls out or flies.
        good: The jaws are level with each other and do not rattle.
        wrong: A jaw runs out of its slide. Hold it, turn the key the other way, start it again.
        cautions:
          - hazard: What was gripped drops on the ways or the hand.
            action: One hand carries it before the key is turned; long or heavy, get help.
          - hazard: A chuck key left in is thrown at the next start.
            action: It never leaves your hand while it is in the chuck.
        when: jaws=loose/on-bar
        does:
          - remove indicator if indicator=set
          - fit chuck-key if chuck-key=out
          - release bar if jaws=on-bar
          - close jaws
          - remove chuck-key
      - step: clear-away
        kind: task
        title: Clear the lathe
        full: >-
          Take lifting gear, tools, rags and keys off the lathe and count them against what was laid
          out. Look once more along the whole machine.
        brief: Gear, tools, rags, keys off the lathe, and counted.
        why: What is left in the swing is thrown by the next start.
        good: Nothing lies on the lathe that does not belong to it.
        wrong: Something is missing from the count. Find it first.
        does:
          - remove chuck-key if chuck-key=in
          - remove screw-key if screw-key=in
          - remove spanner if spanner=in
          - remove indicator if indicator=set
          - clear away
          - shut guard if guard=open
          - set controls neutral
      - step: notes-facts
        kind: facts
        title: Say what the next one should know
        full: Write down what was found and what was done, so that nobody has to ask.
        brief: What was found, what was done.
        why: Whoever comes next begins at this sentence.
        good: Somebody who was not here knows where it stands.
        wrong: Something was left open. Say so here.
        ask: [notes]
      - step: sign-off
        kind: sign-off
        title: Hand it over and sign
        full: >-
          Read the record aloud to whoever takes the lathe over. The lathe is isolated; each
          person's lock comes off by that person.
        brief: Said what was done; lathe isolated. Sign.
        why: A name, a time and a meaning make a record that others can rest on.
        good: The one who takes over can say what was done.
        wrong: Something in it is not as you remember. Correct that entry first, with a reason.
"""


def begun(name: str, title: str, purpose: str, author: str) -> str:
    """The text of a new file; raises `BadInput` for a name that a file cannot go by."""
    if not NAME.fullmatch(name):
        raise BadInput(
            N_("“{name}” cannot be the name of a procedure."),
            N_("Write small letters, digits and dashes, such as chuck-cleaning."),
            name=name,
        )
    told = {"name": name, "title": title, "purpose": purpose, "author": author}
    lines = {key: " ".join(each.split()) for key, each in told.items()}
    return MARK.sub(lambda mark: lines[mark[1]] if mark[2] else quoted(lines[mark[1]]), TEXT)


def quoted(line: str) -> str:
    """A line such that YAML reads it as this text and nothing else."""
    return json.dumps(line, ensure_ascii=False)
