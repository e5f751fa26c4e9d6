"""Reading permits, each with its rules for lapsing and its extensions."""

from dataclasses import replace
from typing import Any

from sqlalchemy import Select, func, select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.inspections.models import Permit, PermitExtension, PermitRule
from webapp.inspections.rules.clocks import ExtensionFacts, RuleFacts
from webapp.inspections.rules.facts import PermitFacts
from webapp.inspections.store.lists import Where, columns, only
from webapp.photos.models import Photo
from webapp.values.errors import NotFound
from webapp.values.own_words import own

_PERMIT = ("id", "code", "name", "covers", "number", "asked_on", "issued_on", "started_on", "started_how")
_RULE = ("id", "permit_id", "kind", "count", "span", "words", "source")
_EXTENSION = ("id", "permit_id", "asked_on", "why", "answered_on", "granted", "until_day", "words", "paper_id")


def _permits(session: Session, *where: Where) -> tuple[PermitFacts, ...]:
    """Each with its rules for lapsing and its extensions."""
    names = (*_PERMIT, "code_family", "code_edition", "hired_id", "closed_on")
    found = rows(session, select(*columns(Permit, *names)).where(*where).order_by(col(Permit.id)))
    ruled: Select[Any] = select(*columns(PermitRule, *_RULE)).join(Permit, col(Permit.id) == col(PermitRule.permit_id))
    asked: Select[Any] = (
        select(
            *columns(PermitExtension, *_EXTENSION),
            func.coalesce(col(Photo.sha256), ""),
            *columns(PermitExtension, "fee_id", "withdrawn_on"),
        )
        .join(Permit, col(Permit.id) == col(PermitExtension.permit_id))
        .outerjoin(Photo, col(Photo.id) == col(PermitExtension.photo_id))
        .where(*where)
    )
    rules = [RuleFacts(*row) for row in rows(session, ruled.where(*where).order_by(col(PermitRule.id)))]
    extensions = [ExtensionFacts(*row) for row in rows(session, asked.order_by(col(PermitExtension.id)))]
    return tuple(_with(PermitFacts(*row), rules, extensions) for row in found)


def _with(permit: PermitFacts, rules: list[RuleFacts], extensions: list[ExtensionFacts]) -> PermitFacts:
    own_rules = tuple(each for each in rules if each.permit_id == permit.id)
    return replace(
        permit, rules=own_rules, extensions=tuple(each for each in extensions if each.permit_id == permit.id)
    )


@kept_list
def list_permits(session: Session, build_id: int) -> tuple[PermitFacts, ...]:
    """In the order they were put in."""
    return _permits(session, col(Permit.build_id) == build_id)


def get_permit(session: Session, build_id: int, code: str) -> PermitFacts:
    found = _permits(session, col(Permit.build_id) == build_id, col(Permit.code) == code)
    return only(found, f"There is no {own('permit')} called {code} here.")


def get_extension(session: Session, build_id: int, extension_id: int) -> tuple[PermitFacts, ExtensionFacts]:
    """The permit it is about, and the request itself."""
    for permit in list_permits(session, build_id):
        for extension in permit.extensions:
            if extension.id == extension_id:
                return permit, extension
    raise NotFound("There is no such request for more time here.")
