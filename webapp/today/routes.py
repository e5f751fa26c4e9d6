"""Pages of today."""

from fastapi import APIRouter

router = APIRouter()
