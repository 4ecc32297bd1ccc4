"""Holds the signatures of bayhand against those of OpenSSH on this machine, both ways: what `ssh-keygen` and the agent sign
is verified here, what is signed here `ssh-keygen` verifies, and each refuses what is not so.

    python3 tests/reference/signatures.py --check target/debug/bayhand

Needs `ssh-keygen`, `ssh-agent` and `ssh-add` (Debian: openssh-client) and nothing else; without them it says so and ends.
"""

import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).parents[2]
NAMESPACE = "bayhand-record-v1"


def run(*command, code=0, **more):
    ended = subprocess.run([str(part) for part in command], capture_output=True, text=True, check=False, **more)
    if code is not None and ended.returncode != code:
        sys.exit(f"{command}: {ended.returncode}\n{ended.stdout}{ended.stderr}")
    return ended


def keygen_verify(signature, line, key, principal, namespace=NAMESPACE, folder=None):
    (folder / "allowed").write_text(f"{principal} namespaces=\"{NAMESPACE}\" {key.with_suffix('.pub').read_text()}")
    verified = run("ssh-keygen", "-Y", "verify", "-f", folder / "allowed", "-I", principal, "-n", namespace, "-s", signature,
                   code=None, input=line)
    return verified.returncode == 0


def apart(file, folder):
    """The line that is signed, and the signature in a file of its own."""
    line, signature = file.read_text().split("\n", 1)
    (folder / "apart.sig").write_text(signature)
    return line + "\n", folder / "apart.sig"


def main():
    missing = [name for name in ["ssh-keygen", "ssh-agent", "ssh-add"] if shutil.which(name) is None]
    if missing:
        print(f"{', '.join(missing)} not there: signatures were not held against those of OpenSSH")
        return
    arguments = [word for word in sys.argv[1:] if word != "--check"]
    program = pathlib.Path(arguments[0] if arguments else ROOT / "target/debug/bayhand").resolve()
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        flush = ROOT / "procedures"
        run(program, "--data", folder, "run", flush / "cooler-line-flush.md", "--vehicle", flush / "vehicle-example.toml",
            "--answers", flush / "answers-example.toml")
        (closed,) = (folder / "runs").iterdir()
        key, other = folder / "key", folder / "other"
        for file in [key, other]:
            run("ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", file)
        sign = [program, "sign", closed, "--name", "Robin Vale", "--meaning"]

        # Ours, by a key file.
        run(*sign, "performed", "--key", key)
        line, signature = apart(closed / "record.performed.robin-vale.signature", folder)
        assert keygen_verify(signature, line, key, "robin@bay", folder=folder)
        assert not keygen_verify(signature, line, key, "robin@bay", namespace="file", folder=folder)
        assert not keygen_verify(signature, line, other, "robin@bay", folder=folder)
        assert not keygen_verify(signature, line.replace("performed", "released"), key, "robin@bay", folder=folder)

        # Theirs, over what is to be signed; in both of its hashes.
        for meaning, hashed in [("verified", "sha512"), ("released", "sha256")]:
            run(*sign, meaning, "--manifest")
            run("ssh-keygen", "-q", "-Y", "sign", "-n", NAMESPACE, "-O", f"hashalg={hashed}", "-f", key,
                closed / f"record.{meaning}.robin-vale.manifest")
        (folder / "allowed").write_text(f"robin@bay {key.with_suffix('.pub').read_text()}")
        said = run(program, "verify", closed, "--allowed-signers", folder / "allowed").stdout
        assert said.count("signed: ") == 3, said

        # For something else.
        wrong = closed / "record.verified.robin-vale.manifest"
        wrong.with_suffix(".manifest.sig").unlink()
        run("ssh-keygen", "-q", "-Y", "sign", "-n", "file", "-f", key, wrong)
        said = run(program, "verify", closed, code=1).stdout
        assert "it was made for `file`" in said, said
        wrong.with_suffix(".manifest.sig").unlink()
        wrong.unlink()

        # Locked keys as ssh-keygen makes them today, opened by the agent that holds them.
        locked = folder / "locked"
        run("ssh-keygen", "-q", "-t", "ed25519", "-N", "warm oil", "-f", locked)
        started = run("ssh-agent", "-a", folder / "agent", "-s").stdout
        agent = {**os.environ, "SSH_AUTH_SOCK": str(folder / "agent")}
        try:
            ask = folder / "ask"
            ask.write_text("#!/bin/sh\necho warm oil\n")
            ask.chmod(0o700)
            run("ssh-add", "-q", locked, env={**agent, "SSH_ASKPASS": str(ask), "SSH_ASKPASS_REQUIRE": "force"})
            run(*sign, "verified", "--key", locked.with_suffix(".pub"), env=agent)
        finally:
            number = started.split("SSH_AGENT_PID=")[1].split(";")[0]
            os.kill(int(number), 15)
        line, signature = apart(closed / "record.verified.robin-vale.signature", folder)
        assert keygen_verify(signature, line, locked, "sam@bay", folder=folder)
    print("signatures: bayhand and OpenSSH verify each other's")


main()
