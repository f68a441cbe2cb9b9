create table visit (
    id               uuid        primary key,
    code             text        not null unique check (code <> ''),
    site_id          uuid        not null references site (id),
    service_date     date        not null,
    round_id         uuid        references round (id),
    stop_id          uuid,
    technician_id    uuid        not null references person (id),
    planned_visits   uuid[]      not null,
    started_at       timestamptz,
    finished_at      timestamptz,
    version          integer     not null
);
create unique index visit_stop_id on visit (stop_id) where stop_id is not null;
create index visit_site_id on visit (site_id, service_date);
create index visit_round_id on visit (round_id);
create index visit_technician_id on visit (technician_id);
create index visit_finished_at on visit (finished_at);
create sequence visit_number start with 1;
create sequence round_number start with 1;

-- A visit is the list of its entries; they are only ever added.
create table visit_entry (
    id               uuid        primary key,
    visit_id         uuid        not null references visit (id),
    kind             text        not null check (kind <> ''),
    -- what the entry writes into, such as reading/SYSTEM/SALINITY; the last entry that counts is the field's value
    field            text        not null check (field <> ''),
    -- false if it started from another value than the field had: kept and shown, without effect
    counts           boolean     not null,
    water_system_id  uuid        references water_system (id),
    -- as it was said, and as it was understood: numbers as decimal text, amounts in litres
    body             jsonb       not null,
    facts            jsonb       not null,
    author_id        uuid        not null references person (id),
    -- by the clock of the device, with its offset
    entered_at       timestamptz not null,
    entered_offset   text        not null,
    -- when it happened, as far as the server believes the device
    happened_at      timestamptz not null,
    received_at      timestamptz not null,
    number           bigint      generated always as identity
);
create index visit_entry_visit_id on visit_entry (visit_id, number);
create index visit_entry_water_system_id on visit_entry (water_system_id);
create index visit_entry_author_id on visit_entry (author_id);
