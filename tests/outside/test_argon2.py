"""RFC 9106, Argon2: the function that hashes passphrases, on the RFC's own example.

A. Biryukov, D. Dinu, D. Khovratovich, S. Josefsson: Argon2 Memory-Hard Function for Password
Hashing and Proof-of-Work Applications, RFC 9106 (2021).

Section 5.3 gives one computation of argon2id with every input and the tag; from memory. The library
that hashes passphrases is held against it.
"""

from __future__ import annotations

from argon2.low_level import ARGON2_VERSION, Type, core, ffi

TAG = bytes.fromhex(
    "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659"
)  # section 5.3


def test_the_tag_of_section_5_3() -> None:
    """Passes 3, memory 32 KiB, lanes 4, password 32 of 01, salt 16 of 02, secret, data; exact."""
    sent = {"pwd": b"\x01" * 32, "salt": b"\x02" * 16, "secret": b"\x03" * 8, "ad": b"\x04" * 12}
    held = {name: ffi.new("uint8_t[]", value) for name, value in sent.items()}
    out = ffi.new("uint8_t[]", 32)
    context = ffi.new(
        "argon2_context *",
        {
            "version": ARGON2_VERSION,
            "out": out,
            "outlen": 32,
            **held,
            **{f"{name}len": len(value) for name, value in sent.items()},
            "t_cost": 3,
            "m_cost": 32,
            "lanes": 4,
            "threads": 1,
            "allocate_cbk": ffi.NULL,
            "free_cbk": ffi.NULL,
            "flags": 0,
        },
    )
    assert core(context, Type.ID.value) == 0
    assert bytes(ffi.buffer(out, 32)) == TAG
