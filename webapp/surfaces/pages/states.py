"""Forms filled in with what is on record."""

from webapp.core.forms import FormState
from webapp.surfaces.store import ItemFacts, OpeningFacts, RunFacts, SurfaceFacts, TieFacts
from webapp.values.length import field_length


def surface_state(surface: SurfaceFacts, unit: str, other: SurfaceFacts | None) -> FormState:
    """The form as the surface stands on record."""

    def shown(nm: int | None) -> str:
        return field_length(nm, unit) if nm is not None else ""

    return FormState.of(
        code=surface.code,
        name=surface.name,
        kind=surface.kind,
        length=shown(surface.length_nm),
        height=shown(surface.height_nm),
        origin_corner=surface.origin_corner,
        far_corner=surface.far_corner,
        framing=surface.framing,
        spacing=shown(surface.spacing_nm),
        first_stud=shown(surface.first_stud_nm),
        bearing="1" if surface.bearing else "",
        facing=surface.facing,
        closed_by=surface.closed_by,
        note=surface.note,
        needs_count="1" if surface.needs_count else "",
        other_face=other.code if other else "",
    )


def item_state(item: ItemFacts, unit: str) -> FormState:
    def shown(nm: int | None) -> str:
        return field_length(nm, unit) if nm is not None else ""

    return FormState.of(
        label=item.label,
        kind=item.kind,
        service=item.service,
        line=item.line,
        from_corner=item.from_corner,
        x=shown(item.typed_nm),
        y=shown(item.y_nm),
        width=shown(item.width_nm),
        note=item.note,
        is_box="1" if item.is_box else "",
        from_picture="1" if item.from_picture else "",
    )


def opening_state(one: OpeningFacts, unit: str) -> FormState:
    return FormState.of(
        kind=one.kind,
        name=one.name,
        x=field_length(one.x_nm, unit),
        y=field_length(one.y_nm, unit),
        width=field_length(one.width_nm, unit),
        height=field_length(one.height_nm, unit),
    )


def run_state(one: RunFacts, unit: str) -> FormState:
    bends = "\n".join(f"{field_length(x, unit)}; {field_length(y, unit)}" for x, y in one.points)
    chosen = {"from_item": one.from_item_id, "to_item": one.to_item_id, "goes_on": one.continues_id}
    ends = {name: str(number) for name, number in chosen.items() if number is not None}
    return FormState.of(label=one.label, line=one.line, service=one.service, points=bends, note=one.note, **ends)


def tie_state(one: TieFacts, unit: str) -> FormState:
    return FormState.of(
        name=one.name,
        x=field_length(one.x_nm, unit),
        from_a=one.from_a,
        a=field_length(one.a_nm, unit),
        from_b=one.from_b,
        b=field_length(one.b_nm, unit),
        note=one.note,
    )
