"""Pages of episodes."""

from fastapi import APIRouter

router = APIRouter()
