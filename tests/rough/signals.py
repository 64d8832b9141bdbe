"""Signals that end the program: nothing half written stays, and the program has died of the signal.

SPDX-License-Identifier: MIT
"""
import os
import random
import resource
import signal
import subprocess
import time

from program import HANG_S, PLIMSOLL, Failed, content, environment, hold, hold_in, main, names, run, sample, shell

LOG = "lagoon-nitrox.csv"
PLACED = ("--diver", "Tern", "--start", "2031-05-06T09:30+11:00")
ENDING = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)
ROUNDS = int(os.environ.get("PLM_ROUGH_ROUNDS", "0"))


def started(folder, *arguments, **more):
    options = {"stdin": subprocess.DEVNULL, "stdout": subprocess.DEVNULL, "stderr": subprocess.PIPE} | more
    return subprocess.Popen([PLIMSOLL, *arguments], cwd=folder, env=environment(folder), text=True, errors="replace", **options)


def ended(program):
    """Waits for the end. Returns what was said."""
    try:
        said = program.communicate(timeout=HANG_S)[1]
    except subprocess.TimeoutExpired as slow:
        program.kill()
        program.communicate()
        raise Failed("the program does not end") from slow
    if "Sanitizer" in said or "runtime error" in said:
        raise Failed(said)
    return said


def parts(folder):
    return [name for _, _, files in os.walk(folder) for name in files if name.endswith(".part")]


def wait_for_part(folder, program):
    begun = time.monotonic()
    while not parts(folder):
        if program.poll() is not None or time.monotonic() - begun > HANG_S:
            program.kill()
            raise Failed(f"no part was made: {ended(program)}")
        time.sleep(0.002)


def test_answer_on_its_way(folder):
    os.mkfifo(f"{folder}/log")
    for number in ENDING:
        for command in ("debrief", "trace", "export", "handover"):
            program = started(folder, command, "-o", "answer", "log")
            wait_for_part(folder, program)
            program.send_signal(number)
            said = ended(program)
            hold(f"{command}: end", program.returncode, -number)
            hold(f"{command}: what is said", said, "")
            hold(f"{command}: what is there", names(folder), ["log"])


def test_answer_in_place_of_another(folder):
    os.mkfifo(f"{folder}/log")
    with open(f"{folder}/answer", "w", encoding="ascii") as old:
        old.write("old\n")
    program = started(folder, "debrief", "-o", "answer", "log")
    wait_for_part(folder, program)
    program.send_signal(signal.SIGTERM)
    ended(program)
    hold("what is there", (names(folder), content(folder, "answer")), (["answer", "log"], b"old\n"))


def test_status_of_the_shell(folder):
    os.mkfifo(f"{folder}/log")
    # Not SIGINT: a shell without job control starts what runs in the background with that one ignored (POSIX.1-2008, XCU 2.11).
    for number in (signal.SIGTERM, signal.SIGHUP):
        done = shell(folder, f'"$PLIMSOLL" debrief -o answer log & while ! ls .*.part >/dev/null 2>&1; do :; done; kill -{number.name[3:]} $!; wait $!; echo $?')
        hold("status", done.stdout, f"{128 + number}\n")


def test_ignored_signals_stay_ignored(folder):
    os.mkfifo(f"{folder}/log")
    with open(f"{folder}/log-bytes", "wb") as log, open(sample(folder, LOG), "rb") as whole:
        log.write(whole.read())
    for number in ENDING:
        program = started(folder, "debrief", "-o", "answer", "log", preexec_fn=lambda number=number: signal.signal(number, signal.SIG_IGN))
        wait_for_part(folder, program)
        program.send_signal(number)
        with open(f"{folder}/log", "wb") as log:
            log.write(content(folder, "log-bytes"))
        said = ended(program)
        hold(f"end, with {number.name} ignored", (program.returncode, said), (0, ""))
        os.remove(f"{folder}/answer")


def test_output_that_nobody_reads(folder):
    sample(folder, LOG)
    os.mkfifo(f"{folder}/pipe")
    for number in ENDING:
        program = started(folder, "debrief", "-o", "pipe", LOG)
        time.sleep(0.2)
        program.send_signal(number)
        ended(program)
        hold("end", program.returncode, -number)
    hold("what is there", names(folder), [LOG, "pipe"])


def test_closed_pipe(folder):
    sample(folder, "deep-terrace.csv")
    reader, writer = os.pipe()
    os.close(reader)
    program = started(folder, "trace", "deep-terrace.csv", stdout=writer)
    os.close(writer)
    said = ended(program)
    hold("end", (program.returncode, said), (-signal.SIGPIPE, ""))


def test_file_size_limit(folder):
    sample(folder, LOG)
    sample(folder, "deep-terrace.csv")
    limit = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
    for arguments in (("debrief", "-o", "answer", LOG), ("trace", "-o", "answer", "deep-terrace.csv"), ("export", "-o", "answer", LOG)):
        done = run(folder, *arguments, expect=3, preexec_fn=limit)
        hold_in(f"{arguments}", "the file grows too large", done.stderr)
        hold("what is there", names(folder), ["deep-terrace.csv", LOG])


def interrupted(folder, rounds, arguments):
    """Sends signals at random moments of a run. Returns how many runs were ended by them."""
    begun = time.monotonic()
    ended(started(folder, *arguments))
    took_s, count = time.monotonic() - begun, 0
    for _ in range(rounds):
        number = random.choice(ENDING)
        program = started(folder, *arguments)
        time.sleep(random.uniform(0, took_s))
        program.send_signal(number)
        said = ended(program)
        if program.returncode not in (0, 1, 2, -number) or "cannot be written" in said:
            raise Failed(f"{arguments}: end {program.returncode} by {number.name}: {said}")
        count += program.returncode == -number
        hold(f"{arguments}: parts", parts(folder), [])
    return count


def test_random_moments(folder):
    os.mkdir(f"{folder}/logs")
    table = open(sample(folder, LOG), encoding="ascii").read()
    for i in range(12):
        with open(f"{folder}/logs/d{i}.csv", "w", encoding="ascii") as log:
            log.write(table + f"{2490 + 10 * i},0,27.0,,,\n")
        run(folder, "ledger", "add", "--ledger", "l", "--diver", "Tern", "--start", f"2031-05-{i + 1:02}T09:30+11:00", f"logs/d{i}.csv", expect=0)
    sample(folder, "deep-terrace.csv")
    seed = random.randrange(1 << 30)
    print(f"        seed {seed}")
    random.seed(seed)
    for arguments in (("audit", "--format", "html", "-o", "pages", "logs"), ("ledger", "export", "--ledger", "l", "out"),
                      ("ledger", "export", "--ledger", "l", "--to", "logs", "out"), ("debrief", "--write-edited", "edited", "deep-terrace.csv")):
        rounds = ROUNDS or 12
        print(f"        {arguments[:3]}: {interrupted(folder, rounds, arguments)} of {rounds} runs ended by a signal")
        run(folder, "ledger", "check", "--ledger", "l", expect=0)


main(globals())
