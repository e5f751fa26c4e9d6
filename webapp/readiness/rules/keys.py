"""How things are named in the one graph of needs: "task:12", "inspection:3@7" for one surface, "cover:7"."""

from webapp.values.errors import NotFound


def task(task_id: int) -> str:
    return f"task:{task_id}"


def inspection(inspection_id: int, surface_id: int | None) -> str:
    return f"inspection:{inspection_id}@{surface_id}" if surface_id else f"inspection:{inspection_id}"


def correction(correction_id: int) -> str:
    return f"correction:{correction_id}"


def question(question_id: int) -> str:
    return f"question:{question_id}"


def shot(shot_id: int) -> str:
    return f"shot:{shot_id}"


def slot(slot_id: int) -> str:
    return f"slot:{slot_id}"


def permit(permit_id: int) -> str:
    return f"permit:{permit_id}"


def fee(fee_id: int) -> str:
    return f"fee:{fee_id}"


def asked(asked_id: int) -> str:
    return f"asked:{asked_id}"


def count(surface_id: int) -> str:
    return f"count:{surface_id}"


def offsets(surface_id: int) -> str:
    """The measures of what is hidden in a surface."""
    return f"offsets:{surface_id}"


def basis(surface_id: int) -> str:
    return f"basis:{surface_id}"


def cover(surface_id: int) -> str:
    return f"cover:{surface_id}"


def covering(cover_id: int) -> str:
    """A covering by mistake, by the row that says so."""
    return f"covering:{cover_id}"


def change(change_id: int) -> str:
    """A change from what was approved."""
    return f"change:{change_id}"


def waited(wait_id: int) -> str:
    """Something waited for from a hired trade."""
    return f"waited:{wait_id}"


def need(need_id: int) -> str:
    """A typed need whose other end is not there any more."""
    return f"need:{need_id}"


def id_of(key: str) -> int:
    """The row id a key carries: 12 of "task:12". Raises NotFound for what is no key, since keys come from addresses."""
    number = key.partition(":")[2].partition("@")[0]
    if not number.isdecimal():
        raise NotFound("There is nothing of that name in this build.")
    return int(number)
