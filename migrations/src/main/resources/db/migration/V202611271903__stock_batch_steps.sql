-- What a batch was made of, and why it was let out although its instrument decides nothing.
alter table water_batch
    add column salt_lot text check (salt_lot <> ''),
    -- dissolved solids of the purified water that went in
    add column water_mg_l numeric check (water_mg_l between 0 and 1000),
    add column release_reason text check (release_reason <> '');

-- What was measured in a batch before it was let out, and what was added or taken out after each measurement.
create table water_batch_step (
    id         uuid        primary key,
    batch_id   uuid        not null references water_batch (id),
    position   integer     not null check (position >= 1),
    kind       text        not null check (kind in ('MEASURED', 'CORRECTED')),
    -- of a measurement: the reading, and the practical salinity that it was found to be
    reading_id uuid        references reading (id),
    salinity   double precision,
    celsius    double precision,
    -- of a correction: what went in and what was taken out before, and how much water that makes
    salt_kg    double precision check (salt_kg >= 0),
    water_l    double precision check (water_l >= 0),
    taken_l    double precision check (taken_l >= 0),
    litres     double precision check (litres > 0),
    at         timestamptz not null,
    person_id  uuid        references person (id),
    unique (batch_id, position),
    check ((kind = 'MEASURED') = (reading_id is not null)),
    check ((kind = 'MEASURED') = (salinity is not null)),
    check ((kind = 'CORRECTED') = (litres is not null))
);
create index water_batch_step_reading_id on water_batch_step (reading_id);
create index water_batch_step_person_id on water_batch_step (person_id);
