"""What is written to: never a file that the run reads, whatever it is called; never through a link that leads nowhere; a link to a file stays one.

SPDX-License-Identifier: MIT
"""
import os
import stat

from program import content, hold, hold_in, main, names, run, sample, shell

LOG = "lagoon-nitrox.csv"
PLACED = ("--diver", "Tern", "--start", "2031-05-06T09:30+11:00")
COMMANDS = (("debrief",), ("debrief", "--format", "html"), ("debrief", "--findings", "csv"), ("trace",), ("export", "--to", "csv"), ("handover",), ("audit",),
            ("audit", "--format", "json"))


def aliases(folder, name):
    """Other names of a file in the folder."""
    os.makedirs(f"{folder}/others/below", exist_ok=True)
    os.symlink(f"{folder}/others", f"{folder}/way")
    os.symlink(f"../{name}", f"{folder}/others/link")
    os.symlink("link", f"{folder}/others/link-of-link")
    os.link(f"{folder}/{name}", f"{folder}/others/hard")
    return name, f"./{name}", f"others/../{name}", f"{folder}/{name}", "others/link", "others/link-of-link", "others/hard", "way/hard", "way/link"


def refused(folder, kept, *arguments, line=None):
    """Runs what must be refused at once: one error, nothing of the kept files changed, nothing left behind."""
    before = names(folder), [content(folder, name) for name in kept], [os.stat(f"{folder}/{name}").st_ino for name in kept]
    done = shell(folder, line, *arguments, expect=3) if line else run(folder, *arguments, expect=3)
    hold(f"{arguments}: what is said", (done.stderr.count("\n"), ": error: " in done.stderr, done.stdout), (1, True, ""))
    hold(f"{arguments}: what is there", (names(folder), [content(folder, name) for name in kept], [os.stat(f"{folder}/{name}").st_ino for name in kept]),
         before)
    return done


def test_log(folder):
    sample(folder, LOG)
    for name in aliases(folder, LOG):
        for command in COMMANDS:
            hold_in(name, name, refused(folder, [LOG], *command, "-o", name, LOG).stderr)


def test_log_by_another_name(folder):
    sample(folder, LOG)
    for name in aliases(folder, LOG):
        refused(folder, [LOG], "debrief", "-o", LOG, name)


def test_one_log_of_several(folder):
    sample(folder, LOG)
    sample(folder, "outer-wall.uddf")
    for command in ("debrief", "handover", "audit"):
        refused(folder, [LOG, "outer-wall.uddf"], command, "-o", "outer-wall.uddf", LOG, "outer-wall.uddf")
    for option in ("-o", "--merge"):
        refused(folder, [LOG, "outer-wall.uddf"], "reconcile", option, "./outer-wall.uddf", LOG, "outer-wall.uddf")


def test_two_answers_in_one_file(folder):
    logs = "tern-handset.csv", "tern-wrist.csv"
    for name in logs:
        sample(folder, f"expedition/day-2/{name}")
    os.makedirs(f"{folder}/below")
    os.symlink("below", f"{folder}/way")
    kept = list(logs)
    for one, other in (("new", "new"), ("new", "./new"), ("new", "below/../new"), ("below/new", "way/new"), ("new", f"{folder}/new")):
        refused(folder, kept, "reconcile", "-o", one, "--merge", other, *logs)
    refused(folder, kept, "reconcile", "--merge", "-", *logs)
    with open(f"{folder}/old", "w", encoding="ascii") as old:
        old.write("old\n")
    os.remove(f"{folder}/way")
    aliases(folder, "old")
    for other in ("old", "./old", "others/hard", "others/link"):
        refused(folder, [*kept, "old"], "reconcile", "-o", "old", "--merge", other, *logs)
    refused(folder, [*kept, "old"], line=f'"$PLIMSOLL" reconcile --merge old {" ".join(logs)} >>old')
    run(folder, "reconcile", "-o", "/dev/null", "--merge", "/dev/null", *logs, expect=(0, 1, 2))
    run(folder, "reconcile", "-o", "new", "--merge", "below/new", *logs, expect=(0, 1, 2))
    hold("two files of one name", names(folder).count("new"), 1)


def test_log_in_a_folder(folder):
    os.mkdir(f"{folder}/day")
    sample(folder, LOG, "day/a.csv")
    sample(folder, "outer-wall.uddf", "day/b.uddf")
    for name in ("day/a.csv", "day/b.uddf"):
        refused(folder, ["day/a.csv", "day/b.uddf"], "audit", "-o", name, "day")
        refused(folder, ["day/a.csv", "day/b.uddf"], "audit", "-o", name, ".")


def test_answer_in_a_searched_folder_is_written_anew(folder):
    sample(folder, LOG)
    for form in ("text", "json", "csv"):
        for _ in range(2):
            run(folder, "audit", "--format", form, "-o", f"answer.{form}", ".", expect=0)
    for _ in range(2):
        run(folder, "audit", "--format", "html", "-o", "pages", ".", expect=0)


def test_card_and_plan(folder):
    sample(folder, LOG)
    sample(folder, LOG, "plan.csv")
    sample(folder, LOG, "other-plan.csv")
    for name in ("lagoon-nitrox.card", "told.card"):
        with open(f"{folder}/{name}", "w", encoding="ascii") as card:
            card.write("[dive]\ndiver = Tern\nplan = plan.csv\n")
    kept = [LOG, "plan.csv", "other-plan.csv", "lagoon-nitrox.card", "told.card"]
    for command in ("debrief", "handover", "audit"):
        for name in ("lagoon-nitrox.card", "plan.csv", "./plan.csv"):
            refused(folder, kept, command, "-o", name, LOG)
    for name in ("lagoon-nitrox.card", "plan.csv"):
        refused(folder, kept, "audit", "-o", name, ".")
    refused(folder, kept, "debrief", "-o", "told.card", "--card", "told.card", LOG)
    refused(folder, kept, "debrief", "-o", "plan.csv", "--card", "told.card", LOG)
    refused(folder, kept, "debrief", "-o", "other-plan.csv", "--plan", "other-plan.csv", LOG)


def test_rules_file(folder):
    sample(folder, LOG)
    with open(f"{folder}/ours.rules", "w", encoding="ascii") as rules:
        rules.write("gf_low_pct = 40\n")
    for name in aliases(folder, "ours.rules"):
        for command, *log in (("debrief", LOG), ("audit", LOG), ("rules",)):
            refused(folder, ["ours.rules"], command, "--rules", "ours.rules", "-o", name, *log)


def test_ledger(folder):
    sample(folder, LOG)
    os.makedirs(f"{folder}/.local/share/plimsoll")
    for ledger in ("l", ".local/share/plimsoll/exposures.ledger"):
        run(folder, "ledger", "add", "--ledger", ledger, *PLACED, LOG, expect=0)
    kept = ["l", ".local/share/plimsoll/exposures.ledger"]
    for name in aliases(folder, "l"):
        refused(folder, kept, "debrief", "--ledger", "l", "-o", name, LOG)
        refused(folder, kept, "ledger", "list", "--ledger", "l", "-o", name)
        refused(folder, kept, "ledger", "show", "--ledger", "l", "-o", name, "Tern")
    refused(folder, kept, "debrief", "-o", kept[1], LOG)
    refused(folder, kept, "ledger", "list", "-o", kept[1])
    refused(folder, kept, "-o", "l", LOG, line='PLIMSOLL_LEDGER=l "$PLIMSOLL" debrief "$@"')


def test_standard_input_and_output(folder):
    sample(folder, LOG)
    refused(folder, [LOG], line=f'"$PLIMSOLL" debrief -o {LOG} - <{LOG}')
    refused(folder, [LOG], line=f'"$PLIMSOLL" debrief {LOG} >>{LOG}')
    refused(folder, [LOG], line=f'"$PLIMSOLL" debrief -o - {LOG} 1<>{LOG}')
    refused(folder, [LOG], line=f'"$PLIMSOLL" ledger add --ledger l {" ".join(PLACED)} {LOG} >>{LOG}')


def test_folders_of_files(folder):
    sample(folder, LOG)
    run(folder, "ledger", "add", "--ledger", "l", *PLACED, LOG, expect=0)
    os.mkdir(f"{folder}/pages")
    os.link(f"{folder}/{LOG}", f"{folder}/pages/index.html")
    done = run(folder, "audit", "--format", "html", "-o", "pages", LOG, expect=3)
    hold_in("pages", "pages/index.html", done.stderr)
    for make in (os.link, os.symlink):
        os.makedirs(f"{folder}/out", exist_ok=True)
        make(f"{folder}/l", f"{folder}/out/dives.csv")
        before = content(folder, "l")
        hold_in("export", "out/dives.csv", run(folder, "ledger", "export", "--ledger", "l", "out", expect=3).stderr)
        hold("the ledger", content(folder, "l") == before, True)
        os.remove(f"{folder}/out/dives.csv")
    hold("the log", content(folder, LOG) == content(folder, "pages/index.html"), True)


def test_edited_dives(folder):
    sample(folder, "deep-terrace.csv")
    run(folder, "debrief", "--write-edited", "edited", "deep-terrace.csv", expect=1)
    first = names(f"{folder}/edited")[0]
    os.remove(f"{folder}/edited/{first}")
    os.link(f"{folder}/deep-terrace.csv", f"{folder}/edited/{first}")
    before = content(folder, "deep-terrace.csv")
    hold_in("edited", first, run(folder, "debrief", "--write-edited", "edited", "deep-terrace.csv", expect=3).stderr)
    hold("the log", content(folder, "deep-terrace.csv") == before, True)
    hold("the other name", content(f"{folder}/edited", first) == before, True)


def test_links_that_lead_nowhere(folder):
    sample(folder, LOG)
    sample(folder, "outer-wall.uddf")
    run(folder, "ledger", "add", "--ledger", "l", *PLACED, LOG, expect=0)
    os.symlink("nowhere", f"{folder}/dangling")
    os.symlink("none/nowhere", f"{folder}/further")
    os.symlink("loop-b", f"{folder}/loop-a")
    os.symlink("loop-a", f"{folder}/loop-b")
    os.mkdir(f"{folder}/out")
    for name in ("dangling", "further", "loop-a"):
        for command in (*COMMANDS, ("audit", "--format", "html")):
            done = run(folder, *command, "-o", name, LOG, expect=3)
            hold_in(f"{command} to {name}", name, done.stderr)
        run(folder, "reconcile", "--merge", name, LOG, "outer-wall.uddf", expect=3)
        run(folder, "debrief", "--write-edited", name, LOG, expect=3)
        run(folder, "ledger", "export", "--ledger", "l", name, expect=3)
        os.symlink(f"../{name}", f"{folder}/out/dives.csv")
        run(folder, "ledger", "export", "--ledger", "l", "out", expect=3)
        os.remove(f"{folder}/out/dives.csv")
        hold(f"{name} stays a link", os.path.islink(f"{folder}/{name}"), True)
    hold("what is there", names(folder), sorted([LOG, "outer-wall.uddf", "l", "dangling", "further", "loop-a", "loop-b", "out"]))


def test_link_to_a_file_is_followed(folder):
    sample(folder, LOG)
    os.mkdir(f"{folder}/store")
    with open(f"{folder}/store/answer", "w", encoding="ascii") as old:
        old.write("old\n")
    os.chmod(f"{folder}/store/answer", 0o640)
    os.symlink("store/answer", f"{folder}/link")
    os.symlink("link", f"{folder}/link-of-link")
    for name in ("link", "link-of-link"):
        inode = os.stat(f"{folder}/store/answer").st_ino
        run(folder, "debrief", "-o", name, LOG, expect=0)
        hold_in("the file that the link leads to", b"lagoon-nitrox.csv, dive 1", content(folder, "store/answer"))
        hold("replaced and not written over", os.stat(f"{folder}/store/answer").st_ino != inode, True)
        hold("its permissions", stat.S_IMODE(os.stat(f"{folder}/store/answer").st_mode), 0o640)
        hold("the link", (os.readlink(f"{folder}/link"), os.readlink(f"{folder}/link-of-link")), ("store/answer", "link"))
        hold("what is there", (names(folder), names(f"{folder}/store")), (sorted([LOG, "link", "link-of-link", "store"]), ["answer"]))


main(globals())
