"""Pages of workdays."""

from fastapi import APIRouter

router = APIRouter()
