"""Standard input, output and error closed when the program starts: nothing that it says lands in a file that it opened, and no answer is lost
in silence.

SPDX-License-Identifier: MIT
"""
import os

from program import content, hold, hold_in, main, names, sample, shell

CLOSED = ("0<&-", "1>&-", "2>&-", "0<&- 1>&-", "0<&- 2>&-", "1>&- 2>&-", "0<&- 1>&- 2>&-")
# A log that is read only in part, so that there is something to tell on standard error.
DAMAGED = "runtime_s,depth_m\n0,0\n60,10\n120,x\n180,12\n240,12\n300,0\n"


def damaged(folder):
    with open(f"{folder}/damaged.csv", "w", encoding="ascii") as log:
        log.write(DAMAGED)
    return "damaged.csv"


def test_report_is_clean(folder):
    log = damaged(folder)
    for form in ("text", "json", "csv", "html"):
        whole = shell(folder, f'"$PLIMSOLL" debrief --format {form} -o whole {log}', expect=2)
        hold_in("there is something to tell", "damaged.csv:", whole.stderr)
        for closed in CLOSED:
            shell(folder, f'"$PLIMSOLL" debrief --format {form} -o out {log} {closed}', expect=2)
            hold(f"{form} with {closed}", content(folder, "out") == content(folder, "whole"), True)


def test_logs_and_ledgers_stay_as_they_are(folder):
    log = sample(folder, "lagoon-nitrox.csv")
    before = content(folder, "lagoon-nitrox.csv")
    for closed in CLOSED:
        shell(folder, f'"$PLIMSOLL" ledger add --ledger l --diver Tern --zone +11:00 lagoon-nitrox.csv {closed}')
        hold(f"the log with {closed}", content(folder, log.split("/")[-1]) == before, True)
        shell(folder, '"$PLIMSOLL" ledger check --ledger l', expect=0)
        shell(folder, "rm -f l*.ledger l l-wal l-shm")


def test_pages_of_an_audit_are_clean(folder):
    log = damaged(folder)
    sample(folder, "lagoon-nitrox.csv")
    whole = shell(folder, f'"$PLIMSOLL" audit --format html -o whole {log} lagoon-nitrox.csv')
    for closed in CLOSED:
        shell(folder, f'"$PLIMSOLL" audit --format html -o pages {log} lagoon-nitrox.csv {closed}', expect=whole.returncode)
        hold(f"pages with {closed}", names(f"{folder}/pages"), names(f"{folder}/whole"))
        for page in names(f"{folder}/whole"):
            hold(f"{page} with {closed}", content(f"{folder}/pages", page) == content(f"{folder}/whole", page), True)
        shell(folder, "rm -r pages")


def test_closed_output_is_told(folder):
    sample(folder, "lagoon-nitrox.csv")
    # As /dev/stdout is one, but a failure of this case does not harm the system's.
    os.symlink("/proc/self/fd/1", f"{folder}/stdout")
    for arguments in ("debrief lagoon-nitrox.csv", "debrief -o - lagoon-nitrox.csv", "debrief -o stdout lagoon-nitrox.csv", "audit .", "rules",
                      "--help", "--version", "debrief --help", "ledger --help", "formats", "trace lagoon-nitrox.csv", "export --to uddf lagoon-nitrox.csv",
                      "explain ascent-rate", "handover lagoon-nitrox.csv"):
        done = shell(folder, f'"$PLIMSOLL" {arguments} 1>&-', expect=3)
        hold_in(arguments, "cannot be written", done.stderr)
        shell(folder, f'"$PLIMSOLL" {arguments} 1>&- 2>&- 0<&-', expect=3)
        hold(f"the link after {arguments}", os.path.islink(f"{folder}/stdout"), True)


def test_closed_input_is_told(folder):
    for arguments in ("debrief -", "debrief /proc/self/fd/0", "formats -", "export --to uddf -", "trace -"):
        done = shell(folder, f'"$PLIMSOLL" {arguments} 0<&-', expect=2)
        hold_in(arguments, "error", done.stderr)


main(globals())
