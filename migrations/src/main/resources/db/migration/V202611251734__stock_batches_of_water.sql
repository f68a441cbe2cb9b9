-- Water mixed or purified at once for use in systems, and who let it out.
create table water_batch (
    id               uuid        primary key,
    number           integer     not null unique check (number >= 1),
    -- where it was made: a supply system, whose readings tell of it
    water_system_id  uuid        not null references water_system (id),
    -- what it stands in, such as drum 4
    container        text        not null check (container <> ''),
    litres           double precision not null check (litres > 0 and litres <= 100000),
    -- salt mix as bought; null for purified water
    salt_kg          double precision check (salt_kg > 0 and salt_kg <= 20000),
    -- practical salinity, or dissolved solids in mg/L where no salt went in
    target_low       numeric,
    target_high      numeric     not null,
    made_by          uuid        references person (id),
    made_at          timestamptz not null,
    -- what was measured in it before it was let out, and by whom
    reading_id       uuid        references reading (id),
    decision_id      uuid        references decision (id),
    released_by      uuid        references person (id),
    released_at      timestamptz,
    version          integer     not null,
    check (target_low <= target_high),
    check ((reading_id is null) = (released_at is null)),
    check ((decision_id is null) = (released_at is null))
);
create sequence water_batch_number start with 1;
create index water_batch_water_system_id on water_batch (water_system_id);
create index water_batch_reading_id on water_batch (reading_id);
create index water_batch_decision_id on water_batch (decision_id);
create index water_batch_made_by on water_batch (made_by);
create index water_batch_released_by on water_batch (released_by);
