"""Pages of plan."""

from fastapi import APIRouter

router = APIRouter()
