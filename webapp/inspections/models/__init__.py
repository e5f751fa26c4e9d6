"""Tables of permits, inspections, visits, results, corrections, fees and what goes with them."""

from webapp.inspections.models.changes import PlanChange, PlanChangeHistory, PlanChangeItem, PlanChangeSurface, Reopened
from webapp.inspections.models.permits import (
    CalendarKey,
    ClosedDay,
    Fee,
    Office,
    OfficeChange,
    Permit,
    PermitChange,
    PermitExtension,
    PermitRule,
)
from webapp.inspections.models.preparing import Advice, AdviceChange, AskedItem, CheckPoint, CheckTick
from webapp.inspections.models.visits import (
    Correction,
    CorrectionChange,
    Inspection,
    InspectionChange,
    InspectionSurface,
    Result,
    Visit,
    VisitChange,
)

__all__ = [
    "Advice",
    "AdviceChange",
    "AskedItem",
    "CalendarKey",
    "CheckPoint",
    "CheckTick",
    "ClosedDay",
    "Correction",
    "CorrectionChange",
    "Fee",
    "Inspection",
    "InspectionChange",
    "InspectionSurface",
    "Office",
    "OfficeChange",
    "Permit",
    "PermitChange",
    "PermitExtension",
    "PermitRule",
    "PlanChange",
    "PlanChangeHistory",
    "PlanChangeItem",
    "PlanChangeSurface",
    "Reopened",
    "Result",
    "Visit",
    "VisitChange",
]
