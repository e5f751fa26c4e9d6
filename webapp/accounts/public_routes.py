"""Public pages of accounts: reachable without a sign-in."""

from fastapi import APIRouter

router = APIRouter()
