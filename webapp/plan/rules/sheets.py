"""The sheets of a build, numbered in the manner of drawing sheets: G general, P plan, W walls and other surfaces,
V visits, M material and money, F film, H what is handed on."""

from webapp.values.own_words import own

SHEETS = (
    ("G1", "Today", "/today"),
    ("G2", "What stops it", "/what-stops"),
    ("G3", "Said", "/said"),
    ("G4", "Workdays", "/workdays"),
    ("P1", "Phases", "/phases"),
    ("W1", "Surfaces", "/surfaces"),
    ("W2", "Before cover", "/before-cover"),
    ("W3", "Behind this wall", "/behind"),
    ("W4", "Pictures", "/pictures"),
    ("W5", "Services", "/services"),
    ("V1", own("Permits"), "/permits"),
    ("V2", own("Inspections"), "/inspections"),
    ("V3", "Changes", "/changes"),
    ("V4", "To put right", "/to-put-right"),
    ("V7", "Papers", "/papers"),
    ("M2", "Spend", "/spend"),
    ("F1", "Footage", "/footage"),
    ("F2", "Episodes", "/episodes"),
    ("H1", "House file", "/house-file"),
)
"""number, name, path below the build"""

ELSEWHERE = (
    ("G7", "Builds", "/builds"),
    ("G5", "Settings", "/settings"),
    ("G6", "Phone", "/phone"),
    ("G8", "Not sent", "/not-sent"),
    ("H2", "Copies", "/copies"),
)
"""sheets that belong to the whole installation, not to one build"""
