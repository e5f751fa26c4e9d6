"""Pages of accounts."""

from fastapi import APIRouter

router = APIRouter()
