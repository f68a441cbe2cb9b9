-- What a decision was written down as, so that a corrected entry takes the place of the one before; that one is kept, with
-- the instant from which it no longer stood. Earlier decisions have no such place and stand.
alter table decision
    add place       text,
    add replaced_at timestamptz;
create index decision_place on decision (place) where replaced_at is null;
