"""What every table shares, and the one table of the machine room. Import before any other table."""

from datetime import datetime
from enum import StrEnum

from sqlalchemy import CheckConstraint
from sqlmodel import Field, SQLModel

SQLModel.metadata.naming_convention = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Table(SQLModel):
    """Base of all tables: a whole-number id given by the database."""

    id: int | None = Field(default=None, primary_key=True)

    @property
    def row_id(self) -> int:
        """The id of a row that is in the database."""
        if self.id is None:
            raise ValueError(f"{type(self).__name__} is not in the database yet")
        return self.id


class Sent(SQLModel, table=True):
    """One thing sent from a phone, by the id made there: arriving twice changes nothing the second time."""

    __tablename__ = "core_sent"
    id: str = Field(primary_key=True, max_length=80)
    digest: str = Field(max_length=64)
    """SHA-256 of what was sent: the same id with other content is refused, not swallowed"""
    answer: str
    """path of the page that was the answer the first time"""
    arrived_at: datetime


def one_of(column: str, values: type[StrEnum] | tuple[str, ...]) -> CheckConstraint:
    """A CHECK that a text column holds one of `values`: table models do not validate, so the database does."""
    listed = ", ".join("'{}'".format(value.replace("'", "''")) for value in values)
    return CheckConstraint(f"{column} IN ({listed})", name=column)
