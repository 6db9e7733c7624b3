"""The tables of accounts: who may come in, who is in, and what was done to whom.

An account stands as it is now: a passphrase that was replaced leaves nothing behind, and neither
does a sign-in that has ended. What was done to accounts is added to `account_change` and stays.
"""

from __future__ import annotations

from typing import Final

from sqlalchemy import Column, ForeignKey, Index, Integer, String, Table, Text

from topheavy.store.columns import ID, METADATA, UtcTime, text_column

ACCOUNT: Final = Table(
    "account",
    METADATA,
    Column("id", ID, primary_key=True, autoincrement=True, doc="number of the account"),
    text_column("name", "what is typed to sign in"),
    Column("key", Text, nullable=False, unique=True, doc="the name, lower case"),
    Column("role", String(6), nullable=False, doc="coach or lifter"),
    Column("gym_id", ForeignKey("gym.id"), nullable=True, doc="of which gym; empty: of all"),
    text_column("lifter", "the lifter it is, by the gym's name; empty for a coach"),
    Column("units", String(2), nullable=False, doc="kg or lb; empty text: the gym's"),
    text_column("passphrase", "its argon2id hash; empty text: none was chosen yet"),
    Column("made_at", UtcTime, nullable=False, doc="when"),
    info={"says": "who may sign in, as it stands now"},
    sqlite_autoincrement=True,
)

ACCOUNT_CHANGE: Final = Table(
    "account_change",
    METADATA,
    Column("id", ID, primary_key=True, autoincrement=True, doc="in the order they were made"),
    Column("at", UtcTime, nullable=False, doc="when"),
    text_column("by", "who"),
    Column("account_id", ID, nullable=False, doc="of which account; it may be gone"),
    text_column("name", "the account's name then"),
    text_column("what", "what was done to it"),
    info={"says": "what was done to accounts, by whom and when; only added to"},
)

SIGN_IN: Final = Table(
    "sign_in",
    METADATA,
    Column("token", String(64), primary_key=True, doc="SHA-256 of what the cookie holds"),
    Column("account_id", ForeignKey("account.id"), nullable=False, doc="who"),
    Column("made_at", UtcTime, nullable=False, doc="when"),
    Column("seen_at", UtcTime, nullable=False, doc="when it was last used, within minutes"),
    Index("ix_sign_in_account_id", "account_id"),
    info={"says": "who is signed in now, one row for each browser"},
)

ACCOUNT_INVITE: Final = Table(
    "account_invite",
    METADATA,
    Column("token", String(64), primary_key=True, doc="SHA-256 of what the link holds"),
    Column("account_id", ForeignKey("account.id"), nullable=False, doc="for whom"),
    Column("ends_at", UtcTime, nullable=False, doc="until when it is good"),
    Index("ix_account_invite_account_id", "account_id"),
    info={"says": "one-time links with which a passphrase is chosen"},
)

SIGN_IN_TRY: Final = Table(
    "sign_in_try",
    METADATA,
    Column("id", ID, primary_key=True, autoincrement=True, doc="in the order they came"),
    text_column("key", "account, network address, or both"),
    Column("at", UtcTime, nullable=False, doc="when"),
    Index("ix_sign_in_try_key", "key", "at"),
    info={"says": "tries to sign in that have not succeeded, for as long as they count"},
)

SERVER_SECRET: Final = Table(
    "server_secret",
    METADATA,
    Column("id", Integer, primary_key=True, autoincrement=False, doc="always 1"),
    Column("value", String(64), nullable=False, doc="random; cookies are signed with it"),
    info={"says": "what cookies are signed with"},
)

ACCOUNTS: Final = (ACCOUNT, ACCOUNT_CHANGE, SIGN_IN, ACCOUNT_INVITE, SIGN_IN_TRY, SERVER_SECRET)
