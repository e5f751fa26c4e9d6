"""Pages of readiness."""

from fastapi import APIRouter

router = APIRouter()
