"""Pages of footage."""

from fastapi import APIRouter

router = APIRouter()
