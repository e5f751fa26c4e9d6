"""what an office said before

Why: a day off that is taken out of an office, and its own days and hours that are put right, stay readable.
"""

import sqlalchemy as sa
from alembic import op

revision = '0005'
down_revision = '0004'
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table('inspections_office_change',
    sa.Column('id', sa.Integer(), nullable=False),
    sa.Column('build_id', sa.Integer(), nullable=False),
    sa.Column('office_id', sa.Integer(), nullable=True),
    sa.Column('field', sa.String(40), nullable=False),
    sa.Column('was', sa.String(), nullable=False),
    sa.Column('became', sa.String(), nullable=False),
    sa.Column('why', sa.String(), nullable=False),
    sa.Column('at', sa.DateTime(), nullable=False),
    sa.ForeignKeyConstraint(['build_id'], ['plan_build.id'], name=op.f('fk_inspections_office_change_build_id_plan_build')),
    sa.ForeignKeyConstraint(['office_id'], ['inspections_office.id'], name=op.f('fk_inspections_office_change_office_id_inspections_office')),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_inspections_office_change'))
    )
    with op.batch_alter_table('inspections_office_change', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_inspections_office_change_build_id'), ['build_id'], unique=False)
        batch_op.create_index(batch_op.f('ix_inspections_office_change_office_id'), ['office_id'], unique=False)


def downgrade() -> None:
    with op.batch_alter_table('inspections_office_change', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_inspections_office_change_office_id'))
        batch_op.drop_index(batch_op.f('ix_inspections_office_change_build_id'))

    op.drop_table('inspections_office_change')
