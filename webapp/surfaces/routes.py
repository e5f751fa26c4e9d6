"""Pages of surfaces."""

from fastapi import APIRouter

router = APIRouter()
