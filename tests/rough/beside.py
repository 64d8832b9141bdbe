"""Cards and plans: regular files in the folder of the log or below; nothing that waits, and nothing that a stranger's card fetches from elsewhere.

SPDX-License-Identifier: MIT
"""
import os
import socket

from program import hold, hold_in, main, names, run, sample, shell

LOG = "lagoon-nitrox.csv"
COMMANDS = (("debrief",), ("trace",), ("export",), ("handover",), ("audit",),
            ("ledger", "add", "--ledger", "l", "--diver", "Tern", "--start", "2031-05-06T09:30+11:00"))


def unused(command):
    """The exit status of a command whose log is not used: a handover then has nothing to tell."""
    return 3 if command[0] == "handover" else 2


def card(folder, name, *lines):
    with open(f"{folder}/{name}", "w", encoding="ascii") as file:
        file.write("\n".join(("[dive]", *lines, "")))


def things(folder, ending):
    """Names of what is no regular file, each with the word that a refusal has for it."""
    os.mkfifo(f"{folder}/fifo{ending}")
    os.mkdir(f"{folder}/folder{ending}")
    os.symlink(f"fifo{ending}", f"{folder}/link{ending}")
    with socket.socket(socket.AF_UNIX) as made:
        made.bind(f"{folder}/socket{ending}")
    return {"fifo": "a pipe", "folder": "a directory", "link": "a pipe", "socket": "a socket"}


def test_card_beside_a_log(folder):
    for name, word in things(folder, ".card").items():
        sample(folder, LOG, f"{name}.csv")
        for command in COMMANDS:
            done = run(folder, *command, f"{name}.csv", expect=unused(command))
            if command[0] != "audit":
                hold_in(f"{command} {name}", f"{name}.card: error: is {word}", done.stderr)


def test_no_log_of_a_folder_is_passed_over_for_its_card(folder):
    os.mkdir(f"{folder}/logs")
    sample(folder, LOG, "logs/a.csv")
    os.mkfifo(f"{folder}/logs/a.card")
    for command in (COMMANDS[-1], COMMANDS[-2]):
        done = run(folder, *command, "logs", expect=2)
        hold_in(f"{command}", "logs/a.card: error: is a pipe", done.stderr + done.stdout)


def test_card_and_plan_by_option(folder):
    sample(folder, LOG)
    for name, word in (*things(folder, "").items(), ("/dev/zero", "a device")):
        for option in ("--card", "--plan"):
            hold_in(name, f"{name}: error: is {word}", run(folder, "debrief", option, name, LOG, expect=2).stderr)
    for option in ("--card", "--plan"):
        done = run(folder, "debrief", option, "-", LOG, expect=2)
        hold_in(option, "-: error: is standard input", done.stderr)


def test_process_substitution_is_told_what_to_do(folder):
    sample(folder, LOG)
    card(folder, "c", "diver = Tern")
    done = shell(folder, f"exec /bin/bash -c '\"$PLIMSOLL\" debrief --card <(cat c) {LOG}'", expect=2)
    hold_in("the refusal", "is a pipe", done.stderr)
    hold_in("what to do", "copy it into a file", done.stderr)


def test_plan_that_a_card_names(folder):
    sample(folder, LOG)
    for name, word in things(folder, "-plan").items():
        card(folder, "lagoon-nitrox.card", f"plan = {name}-plan")
        for command in COMMANDS[:-1]:
            done = run(folder, *command, LOG, expect=unused(command))
            if command[0] != "audit":
                hold_in(f"{command} {name}", f"{name}-plan: error: is {word}", done.stderr)
    card(folder, "lagoon-nitrox.card", "plan = -")
    for command in COMMANDS[:-1]:
        done = shell(folder, f'"$PLIMSOLL" {" ".join(command)} {LOG} <fifo-plan & exec 3>fifo-plan; wait $!', expect=unused(command))
        if command[0] != "audit":
            hold_in(f"{command}", "-: error: is standard input", done.stderr)


def test_plan_outside_the_folder_of_the_log(folder):
    os.makedirs(f"{folder}/logs/below")
    os.mkdir(f"{folder}/logs-too")
    sample(folder, LOG, "logs/a.csv")
    for place in (".", "logs-too", "logs", "logs/below"):
        sample(folder, LOG, f"{place}/plan.csv")
    os.symlink("../plan.csv", f"{folder}/logs/link.csv")
    os.symlink("../logs-too", f"{folder}/logs/way")
    os.symlink("plan.csv", f"{folder}/logs/inside.csv")
    for name in ("../plan.csv", "below/../../plan.csv", "../logs-too/plan.csv", f"{folder}/plan.csv", "link.csv", "way/plan.csv", "/etc/passwd"):
        card(folder, "logs/a.card", f"plan = {name}")
        for command in (("debrief",), ("handover",), ("audit",)):
            done = run(folder, *command, "logs/a.csv", expect=unused(command))
            if command[0] != "audit":
                hold_in(f"{command} {name}", "outside the folder of", done.stderr)
            hold(f"{command} {name}: contents", "root:" in done.stderr + done.stdout, False)
    for name in ("plan.csv", "below/plan.csv", "./below/../plan.csv", "../logs/plan.csv", "inside.csv", f"{folder}/logs/plan.csv"):
        card(folder, "logs/a.card", f"plan = {name}")
        for command in (("debrief",), ("audit",)):
            run(folder, *command, "logs/a.csv", expect=0)
        run(f"{folder}/logs", "debrief", "a.csv", expect=0)
    card(folder, "logs/a.card", "plan = ../plan.csv")
    run(folder, "debrief", "--plan", "plan.csv", "logs/a.csv", expect=0)


def test_card_outside_the_folder_of_the_log(folder):
    os.mkdir(f"{folder}/logs")
    sample(folder, LOG, "logs/a.csv")
    with open(f"{folder}/secret", "w", encoding="ascii") as secret:
        secret.write("secret words\n")
    os.symlink("../secret", f"{folder}/logs/a.card")
    for command in COMMANDS:
        done = run(folder, *command, "logs/a.csv", expect=unused(command))
        hold(f"{command}: contents", "secret words" in done.stderr + done.stdout, False)
        if command[0] != "audit":
            hold_in(f"{command}", "outside the folder of", done.stderr)
    hold("what is there", [name for name in names(folder) if name not in ("l", "l-wal", "l-shm")], ["logs", "secret"])
    os.remove(f"{folder}/logs/a.card")
    card(folder, "elsewhere.card", "diver = Tern")
    run(folder, "debrief", "--card", "elsewhere.card", "logs/a.csv", expect=0)


main(globals())
