"""Pages of photos."""

from fastapi import APIRouter

router = APIRouter()
