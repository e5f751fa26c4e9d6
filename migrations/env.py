"""Runs the migrations: on the connection handed in by the program, or on the developer's own for `alembic check`.

The developer's database is named by STUDBAY_DATA; without it a fresh one in memory is migrated first, so that
`alembic check` and `alembic revision --autogenerate` compare the models with what the migrations really make.
"""

import os
from pathlib import Path

from alembic import context
from alembic.migration import MigrationContext
from alembic.operations import Operations
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, create_engine
from sqlalchemy.pool import StaticPool
from sqlmodel import SQLModel


def plain_types(kind: str, column_type: object, _context: object) -> str | bool:
    """Migrations are frozen: they name SQLAlchemy's own types, never those of SQLModel or of ours."""
    if kind == "type":
        name = type(column_type).__name__
        if name == "AutoString":
            length = column_type.length  # type: ignore[attr-defined]
            return f"sa.String({length})" if length else "sa.String()"
        if name == "UTCDateTime":
            return "sa.DateTime()"
    return False


def run(connection: Connection) -> None:
    metadata = SQLModel.metadata if context.config.attributes.get("connection") is None else None
    context.configure(
        connection=connection,
        target_metadata=metadata,
        render_as_batch=True,
        compare_type=True,
        render_item=plain_types,
    )
    with context.begin_transaction():
        context.run_migrations()


def developers_database() -> Connection:
    """A database at head for the developer's commands."""
    if folder := os.environ.get("STUDBAY_DATA"):
        return create_engine(f"sqlite:///{Path(folder) / 'studbay.sqlite3'}").connect()
    connection = create_engine("sqlite://", poolclass=StaticPool).connect()
    script = ScriptDirectory.from_config(context.config)
    inner = MigrationContext.configure(connection)
    with Operations.context(inner):
        for revision in reversed(list(script.walk_revisions())):
            revision.module.upgrade()
            inner.stamp(script, revision.revision)
    return connection


if (given := context.config.attributes.get("connection")) is not None:
    run(given)
else:
    import webapp.all_models  # noqa: F401 (only the developer's commands compare with the models)

    with developers_database() as own:
        run(own)
        own.commit()
