"""Public pages of audience: reachable without a sign-in."""

from fastapi import APIRouter

router = APIRouter()
