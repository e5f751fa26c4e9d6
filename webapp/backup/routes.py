"""Pages of backup."""

from fastapi import APIRouter

router = APIRouter()
