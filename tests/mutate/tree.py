"""A copy of the source tree, built so that an edit costs one compilation and two links. The source tree is only read.

SPDX-License-Identifier: MIT
"""
import hashlib
import os
import shutil
import subprocess

LEFT_OUT = ("build", ".")
CONFIGURE = ["-G", "Ninja", "-DCMAKE_BUILD_TYPE=None", "-DCMAKE_C_FLAGS=-O1 -DNDEBUG -fno-semantic-interposition",
             "-DPLM_WERROR=ON", "-DPLM_TESTED_SHARED=ON", "-DBUILD_SHARED_LIBS=ON", "-DCMAKE_LINK_DEPENDS_NO_SHARED=ON"]


def files(root):
    """Every file of the tree, relative, without builds and what is hidden."""
    found = []
    for base, folders, names in os.walk(root):
        top = base == root
        folders[:] = sorted(name for name in folders if name != "__pycache__" and not (top and name.startswith(LEFT_OUT)))
        found += [os.path.relpath(os.path.join(base, name), root) for name in names if not (top and name.startswith("."))]
    return sorted(found)


def digest(root):
    """Changes with anything that is built or tested; not with the tables of edits, which are neither."""
    told = hashlib.sha256()
    for path in files(root):
        if path.startswith(("src/", "include/", "tests/", "samples/", "CMakeLists")) and not path.startswith("tests/mutate/"):
            told.update(path.encode() + b"\0" + open(os.path.join(root, path), "rb").read() + b"\0")
    return told.hexdigest()[:16]


class Copy:
    """One copy with its build; applies one edit at a time."""

    def __init__(self, root, folder):
        self.root, self.folder, self.build = root, os.path.join(folder, "tree"), os.path.join(folder, "build")
        self.targets, self.changed = [], None
        os.makedirs(self.folder, exist_ok=True)

    def refresh(self):
        """Makes the copy what the source tree is; leaves alone what is the same, so that little is built again."""
        wanted = set(files(self.root))
        for path in set(files(self.folder)) - wanted:
            os.remove(os.path.join(self.folder, path))
        for path in wanted:
            source, target = os.path.join(self.root, path), os.path.join(self.folder, path)
            if os.path.islink(source) or not os.path.exists(target) or open(source, "rb").read() != open(target, "rb").read():
                os.makedirs(os.path.dirname(target), exist_ok=True)
                shutil.copy(source, target)

    def make(self):
        """Configures and builds everything once. Returns: what the tools said, or None when all went well."""
        out = subprocess.run(["cmake", "-S", self.folder, "-B", self.build, *CONFIGURE], capture_output=True, text=True)
        return out.stdout + out.stderr if out.returncode else self.ninja([])

    def ninja(self, targets):
        out = subprocess.run(["ninja", "-C", self.build, "-j2", *targets], capture_output=True, text=True)
        return out.stdout if out.returncode else None

    def build_edit(self, edit):
        """Puts the edit in the place of the last one and builds what the tests need; as `ninja`."""
        self.restore()
        path = os.path.join(self.folder, edit.path)
        text = open(path, encoding="utf-8").read()
        edited = edit.apply(text)
        self.changed = (path, text)
        self._write(path, edited)
        return self.ninja(self.targets)

    def restore(self):
        if self.changed is not None:
            self._write(*self.changed)
            self.changed = None

    @staticmethod
    def _write(path, text):
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
