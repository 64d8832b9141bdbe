"""What is known of each edit, in a file that grows by a line an edit, so that a run that was stopped goes on where it was.

SPDX-License-Identifier: MIT
"""
import json
import os


class Journal:
    def __init__(self, path):
        self.path, self.last = path, {}
        if os.path.exists(path):
            for line in open(path, encoding="utf-8"):
                try:
                    row = json.loads(line)
                except ValueError:
                    continue    # cut off when the run was stopped
                self.last[row["edit"]] = row

    def add(self, edit, tree, labels, result, by, seconds):
        """result: noticed, unnoticed, compiler or stale, by tests of these labels."""
        row = {"edit": edit.name, "tree": tree, "labels": labels, "result": result, "by": by, "seconds": round(seconds, 2), "path": edit.path}
        self.last[edit.name] = row
        with open(self.path, "a", encoding="utf-8") as file:
            file.write(json.dumps(row) + "\n")

    def known(self, edit, tree, labels):
        """Whether an edit was tried on this very tree, and by these tests where none noticed it."""
        row = self.last.get(edit.name)
        if row is None or row["tree"] != tree:
            return False
        return row["result"] != "unnoticed" or set(labels) <= set(row["labels"])

    def result(self, edit):
        return self.last.get(edit.name, {}).get("result")
