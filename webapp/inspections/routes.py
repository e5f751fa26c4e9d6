"""Pages of inspections."""

from fastapi import APIRouter

router = APIRouter()
