"""Pages of money."""

from fastapi import APIRouter

router = APIRouter()
